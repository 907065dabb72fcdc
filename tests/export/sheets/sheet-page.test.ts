import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { invert, transformPoint, translate } from '../../../src/curves/geometry/affine.ts';
import { inflate, pathBounds } from '../../../src/curves/geometry/bounds.ts';
import { type Chord, flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import type { Page } from '../../../src/export/drawing/drawing.ts';
import { grainArrow } from '../../../src/export/sheets/grain-arrow.ts';
import { patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { makePart } from '../../../src/part/make-part.ts';
import type { Part } from '../../../src/part/part.ts';
import { linesToCut } from '../../../src/tiling/grid/lines-to-tile.ts';
import type { Layout, Sheet } from '../../../src/tiling/layout.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { archTop, backLeg, gentlePart, shelfFront } from '../../tiling/parts.ts';
import { boxOnSheet, moved, strokesOf, wordsFrame, wordsOf } from '../words-on.ts';

const read = (name: string): Part =>
  makePart(parseJob(readFileSync(new URL(`../../../samples/${name}.yaml`, import.meta.url), 'utf8')).job);

const samples = new Map<string, Part>();
function sample(name: string): Part {
  const known = samples.get(name) ?? read(name);
  samples.set(name, known);
  return known;
}

const PARTS: [string, () => Part][] = [
  ['hall bench leg', () => sample('hall-bench-leg')],
  ['garden arch rail', () => sample('garden-arch-rail')],
  ['hall bench stretcher', () => sample('hall-bench-stretcher')],
  ['wall shelf bracket', () => sample('wall-shelf-bracket')],
  ['back leg', backLeg],
  ['arch top', archTop],
  ['shelf front', shelfFront],
];

interface Composed {
  readonly layout: Layout;
  readonly sheets: readonly {
    readonly sheet: Sheet;
    readonly page: Page;
    readonly lines: readonly Chord[];
  }[];
}

function compose(part: Part, paper: string, turn: 'auto' | number): Composed {
  const layout = layOut(part, { paper: parsePaper(paper), margin: 12.7, overlap: 15, turn });
  const chords = flatten(linesToCut(part));
  const sheets = [...patternPages(part, layout, false).pages].map((page, i) => {
    const sheet = layout.sheets[i]!;
    const lines = chords.map(({ from, to }) => ({
      from: transformPoint(sheet.toSheet, from),
      to: transformPoint(sheet.toSheet, to),
    }));
    return { sheet, page, lines: lines.filter((line) => segmentIntersectsBox(line, sheet.window)) };
  });
  return { layout, sheets };
}

function expectClear({ sheets }: Composed): void {
  for (const { sheet, page, lines } of sheets) {
    const where = `sheet ${sheet.name}`;
    for (const words of wordsOf(page.drawing.items)) {
      const { box, into } = wordsFrame(words);
      expect(
        moved(lines, into).some((line) => segmentIntersectsBox(line, box)),
        `"${words.text}" on ${where}`,
      ).toBe(false);
      const mine = boxOnSheet(words);
      const { left, right, bottom, top } = inflate(sheet.window, 0.1);
      expect(
        mine.left >= left && mine.right <= right && mine.bottom >= bottom && mine.top <= top,
        `"${words.text}" on ${where} is printed`,
      ).toBe(true);
    }
    for (const stroke of strokesOf(page.drawing.items).filter(
      ({ style }) => style === 'rule' || style === 'register',
    ))
      for (const { from, to } of flatten(stroke.path)) {
        const turn = Math.atan2(to.y - from.y, to.x - from.x);
        const into = invert(
          translate([Math.cos(turn), Math.sin(turn), -Math.sin(turn), Math.cos(turn), 0, 0], from.x, from.y),
        );
        const length = Math.hypot(to.x - from.x, to.y - from.y);
        const box = { left: 0, right: length, bottom: -0.1, top: 0.1 };
        expect(
          moved(lines, into).some((line) => segmentIntersectsBox(line, box)),
          `a ${stroke.style} stroke on ${where}`,
        ).toBe(false);
      }
  }
}

describe('nothing covers the lines to cut', () => {
  for (const [name, part] of PARTS)
    test.each([
      ['letter', 'auto'],
      ['a4', 90],
      ['letter', -64],
    ] as const)(`${name} on %s, turned %s`, (paper, turn) => {
      expectClear(compose(part(), paper, turn));
    });

  test('property: nor on any gentle part, any way round, however small the paper', () => {
    fc.assert(
      fc.property(
        gentlePart(),
        fc.constantFrom('letter', 'a4', '160x200mm'),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (part, paper, turn) => expectClear(compose(part, paper, turn)),
      ),
      { numRuns: 8 },
    );
  });
});

test('the arrow of the grain keeps its tips off the lines that it stands between', () => {
  const [one] = compose(sample('hall-bench-leg'), 'letter', 0).sheets;
  const lines = [
    { left: 19, right: 20, bottom: 0, top: 40 },
    { left: 80, right: 81, bottom: 0, top: 40 },
  ];
  const space = { area: { left: 0, right: 100, bottom: 0, top: 40 }, occupied: [...lines] };
  const drawn = strokesOf(grainArrow({ sheet: one!.sheet, space }, 0));
  const { left, right } = pathBounds(drawn.flatMap(({ path }) => path));
  expect(left).toBeGreaterThan(21);
  expect(right).toBeLessThan(79);
});

test('the arrow of the grain points as the job says', () => {
  const [one] = compose(sample('hall-bench-leg'), 'letter', 0).sheets;
  const space = { area: { left: 0, right: 200, bottom: 0, top: 200 }, occupied: [] };
  const along = (grain: number): number => {
    const [shaft] = strokesOf(grainArrow({ sheet: one!.sheet, space }, grain)).flatMap(({ path }) => path);
    if (shaft?.type !== 'line') throw new Error('the shaft is a line');
    return Math.atan2(shaft.to.y - shaft.from.y, shaft.to.x - shaft.from.x);
  };
  expect(along(0.3) - along(0)).toBeCloseTo(0.3, 9);
  expect(along(Math.PI / 2) - along(0)).toBeCloseTo(Math.PI / 2, 9);
});

describe('each sheet', () => {
  const { sheets, layout } = compose(sample('hall-bench-leg'), 'letter', 'auto');

  test('carries its name in type of at least 8 mm, the part, the page and the code', () => {
    sheets.forEach(({ sheet, page }, i) => {
      const words = wordsOf(page.drawing.items);
      expect(words.find(({ text }) => text === sheet.name)?.size).toBeGreaterThanOrEqual(8);
      const all = words.map(({ text }) => text);
      expect(all).toContain('Hall bench leg');
      expect(all).toContain(`sheet ${i + 1} of ${layout.sheets.length} · code ${layout.code}`);
    });
  });

  test('has no words smaller than 3 mm', () => {
    for (const { page } of sheets)
      for (const { size } of wordsOf(page.drawing.items)) expect(size).toBeGreaterThanOrEqual(3);
  });

  test('labels the apex with its offset, once', () => {
    const labels = sheets
      .flatMap(({ page }) => wordsOf(page.drawing.items))
      .filter(({ text }) => text.startsWith('apex'));
    expect(labels).toHaveLength(1);
  });

  test('no two words run into each other', () => {
    for (const { page } of sheets) {
      const boxes = wordsOf(page.drawing.items).map(boxOnSheet);
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1))
          expect(a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top).toBe(false);
      });
    }
  });

  test('shows the grain, and what its lines mean', () => {
    for (const { page } of sheets) {
      const all = wordsOf(page.drawing.items).map(({ text }) => text);
      expect(all).toEqual(expect.arrayContaining(['grain', 'finished line', 'saw line, 1⁄16″ outside']));
    }
  });
});

/** Which bars a page has, and which way they run. */
const barsOn = ({ drawing }: Page): string[] =>
  wordsOf(drawing.items)
    // The figures of the part have fractions of a size of their own.
    .filter(({ text, fractions }) => (text === '100 mm' || text === '4″') && fractions === undefined)
    .map(({ text, turn = 0 }) => `${text} ${turn === 0 ? 'across' : 'down'}`)
    .sort();

const ALL_BARS = ['100 mm across', '100 mm down', '4″ across', '4″ down'];

describe('every sheet says at each seam what to do with which neighbour', () => {
  test.each(PARTS)('%s', (_, part) => {
    for (const [paper, turn] of [
      ['letter', 'auto'],
      ['a4', 90],
      ['a4', -35],
    ] as const)
      for (const { sheet, page } of compose(part(), paper, turn).sheets)
        for (const neighbour of Object.values(sheet.neighbours))
          expect(
            wordsOf(page.drawing.items).some(({ text }) => text.split(/[ .]/).includes(neighbour)),
            `${neighbour} at ${sheet.name}`,
          ).toBe(true);
  });
});

describe('every sheet has both bars both ways', () => {
  test.each(PARTS)('%s', (_, part) => {
    for (const paper of ['letter', '160x200mm'])
      for (const { page } of compose(part(), paper, 'auto').sheets) expect(barsOn(page)).toEqual(ALL_BARS);
  });

  test('property: and its name, whatever the part and its turn', () => {
    const turn = fc.double({ min: 0, max: 360, noNaN: true });
    fc.assert(
      fc.property(gentlePart(), fc.constantFrom('letter', 'a4', '160x200mm'), turn, (part, paper, way) => {
        for (const { page } of compose(part, paper, way).sheets) {
          expect(barsOn(page)).toEqual(ALL_BARS);
          expect(wordsOf(page.drawing.items).some(({ text }) => text === page.name)).toBe(true);
        }
      }),
      { numRuns: 8 },
    );
  });
});
