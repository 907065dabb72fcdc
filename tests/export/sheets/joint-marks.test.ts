import { beforeAll, describe, expect, test } from 'vitest';
import { invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { writePatternPdf } from '../../../src/export/writers/pdf.ts';
import type { Part } from '../../../src/part/part.ts';
import type { Layout } from '../../../src/tiling/layout.ts';
import { layOutMirrored } from '../../../src/tiling/mirrored-layout.ts';
import { pageMatrix } from '../../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { fontBytes } from '../font.ts';
import { leg } from '../joinery.ts';
import { looksLike } from '../printed-line.ts';
import { type ReadPage, readPdf } from '../read-pdf.ts';

const IN = 25.4;
/** The writer rounds to a thousandth of a point or so; a hundredth of a millimetre is asked for. */
const PLACE_MM = 0.01;

const OPTIONS = { paper: parsePaper('letter'), margin: 12.7, overlap: 15, turn: 'auto' as const };

interface Printed {
  readonly layout: Layout;
  readonly pages: readonly ReadPage[];
}

const part: Part = leg();
let first: Printed;
let mirrored: Printed;

beforeAll(async () => {
  const [one, other] = [layOut(part, OPTIONS), layOutMirrored(part, OPTIONS)];
  const bytes = await writePatternPdf(part, one, { font: fontBytes(), cover: false, mirrored: other });
  const { pages } = await readPdf(bytes);
  first = { layout: one, pages: pages.slice(0, one.sheets.length) };
  mirrored = { layout: other, pages: pages.slice(one.sheets.length) };
});

/** The strokes of joints that some sheet shows, back on the part: each as the ends of its steps. */
function jointsOn({ layout, pages }: Printed): Point[][] {
  return layout.sheets.flatMap((sheet, i) => {
    const back = invert(pageMatrix(sheet));
    return pages[i]!.strokes.filter((stroke) => looksLike(stroke, 'joint')).map(({ steps }) =>
      steps.map(({ points }) => transformPoint(back, points.at(-1)!)),
    );
  });
}

const near = (drawn: readonly Point[], at: Point): number =>
  Math.min(...drawn.map((corner) => distance(corner, at)));

describe.each([
  ['the pattern', () => first],
  ['its mirror image, by the same stations and offsets', () => mirrored],
] as const)('on %s', (_, printed) => {
  test('a mortise has its corners half its length and width from its middle', () => {
    // At 5 in, 1 in out, 2 in by 3/8 in: by hand.
    const corners = [4, 6].flatMap((x) => [0.8125, 1.1875].map((y) => ({ x: x * IN, y: y * IN })));
    const found = jointsOn(printed()).filter((drawn) =>
      corners.every((corner) => near(drawn, corner) < PLACE_MM),
    );
    expect(found.length).toBeGreaterThan(0);
  });

  test('a hole is round about its middle', () => {
    const middle = { x: 28 * IN, y: 1.5 * IN };
    const holes = jointsOn(printed()).filter((drawn) =>
      drawn.every((at) => Math.abs(distance(at, middle) - (3 / 16) * IN) < PLACE_MM),
    );
    expect(holes.length).toBeGreaterThan(0);
  });

  test('a slot reaches half its length each way', () => {
    const slots = jointsOn(printed()).filter((drawn) => near(drawn, { x: 24 * IN, y: 1.125 * IN }) < 20);
    const xs = slots.flat().map(({ x }) => x);
    expect(slots.length).toBeGreaterThan(0);
    // Its straight sides end a radius short of the ends: 3/4 − 1/8 in from the middle.
    expect(near(slots.flat(), { x: (24 + 0.625) * IN, y: 1.125 * IN })).toBeLessThan(PLACE_MM);
    expect(near(slots.flat(), { x: (24 - 0.625) * IN, y: 0.875 * IN })).toBeLessThan(PLACE_MM);
    expect(Math.max(...xs)).toBeLessThan((24 + 0.75) * IN + PLACE_MM);
  });

  test('each joint is called by its number and name once', () => {
    const words = printed().pages.flatMap((page) => page.words.map(({ text }) => text));
    for (const name of ['1 seat rail', '2 mortise', '3 stretcher', '4 slot', '5 seat line', '6 plug'])
      expect(words.filter((text) => text === name)).toHaveLength(1);
  });
});

describe('the mirrored pattern', () => {
  test('turns the part over on its way to the paper, and the first does not', () => {
    const turned = ({ layout }: Printed): number[] =>
      layout.sheets.map(({ toSheet: [a, b, c, d] }) => a * d - b * c);
    for (const area of turned(first)) expect(area).toBeCloseTo(1, 12);
    for (const area of turned(mirrored)) expect(area).toBeCloseTo(-1, 12);
  });

  test('shares no sheet’s name nor its code with the first, and says what it is on every sheet', () => {
    const names = first.layout.sheets.map(({ name }) => name);
    for (const { name, neighbours } of mirrored.layout.sheets) {
      expect(names).not.toContain(name);
      for (const neighbour of Object.values(neighbours)) expect(names).not.toContain(neighbour);
    }
    expect(mirrored.layout.code).not.toBe(first.layout.code);
    for (const { words } of mirrored.pages)
      expect(words.map(({ text }) => text)).toContain('mirrored pattern');
    for (const { words } of first.pages)
      expect(words.map(({ text }) => text)).not.toContain('mirrored pattern');
  });

  test('has the same distances to measure on the part', () => {
    const edges = ({ layout }: Printed) => layout.checks.filter(({ label }) => label.includes('end to end'));
    edges(mirrored).forEach((check, i) => {
      const same = edges(first)[i]!;
      expect(check.length).toBeCloseTo(same.length, 9);
      expect(distance(check.from, same.from)).toBeLessThan(1e-9);
    });
  });
});
