import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rotate, transformPoint, translate } from '../../../src/curves/geometry/affine.ts';
import { pathBounds } from '../../../src/curves/geometry/bounds.ts';
import { type Point, point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { fullSize } from '../../../src/export/full-size/compose-full-size.ts';
import { assertFitsPdfPage, fullSizePage } from '../../../src/export/full-size/full-size-files.ts';
import { writeDxf } from '../../../src/export/writers/dxf.ts';
import type { Part } from '../../../src/part/part.ts';
import { finishedLine } from '../../../src/part/part-lines.ts';
import { partOf, SAMPLES, samplePart } from '../../part/jobs.ts';
import { apart, type DrawnLine, distancesFrom, farthestFrom, meant, placesOn } from '../drawn-line.ts';
import { groupOf, pdfLine, pdfOf, svgLine, svgOf } from '../full-size-files.ts';
import { readDxf } from '../read-dxf.ts';
import { openPdf } from '../read-pdf.ts';

/** What a reader's own single precision may add, mm: half of 1/2²⁴ of two metres. */
const READ_MM = 1e-4;

const trueLine = (part: Part): DrawnLine => meant(part.exact);

const dxfLine = (part: Part, layer = 'cut', splines = false): DrawnLine =>
  readDxf(writeDxf(fullSize(part), { unit: 'mm', splines }))
    .lines.filter((line) => line.layer === layer)
    .flatMap(({ line }) => line);

describe.each(SAMPLES)('%s', (name) => {
  const part = samplePart(name);

  test('the three files agree with the exact line, and with each other, all along', async () => {
    const exact = trueLine(part);
    const [svg, dxf, pdf] = [
      svgLine(fullSize(part), 'cut'),
      dxfLine(part),
      await pdfLine(fullSize(part), 'cut'),
    ];
    // The last step of a closed outline's file is its closing, which pdf.js does not list as a line.
    for (const file of [svg, dxf]) expect(apart(file, exact, 3)).toBeLessThanOrEqual(FIT_MM);
    expect(farthestFrom(exact, placesOn(pdf, 3))).toBeLessThanOrEqual(FIT_MM);
    expect(apart(svg, dxf, 3)).toBeLessThanOrEqual(FIT_MM);
    expect(farthestFrom(svg, placesOn(pdf, 3))).toBeLessThanOrEqual(READ_MM);
    expect(farthestFrom(dxf, placesOn(pdf, 3))).toBeLessThanOrEqual(FIT_MM);
  });

  test('the saw line runs outside at its allowance in each file', async () => {
    const full = fullSize(part);
    for (const file of [svgLine(full, 'saw'), dxfLine(part, 'saw'), await pdfLine(full, 'saw')]) {
      const off = distancesFrom(trueLine(part), placesOn(file, 3));
      // Corners stand off by more, up to the diagonal of the allowance.
      expect(Math.min(...off)).toBeGreaterThan(part.sawAllowance - FIT_MM);
      expect(Math.max(...off)).toBeLessThan(part.sawAllowance * Math.SQRT2 + FIT_MM);
      expect(off.filter((each) => each < part.sawAllowance + FIT_MM).length).toBeGreaterThan(off.length / 2);
    }
  });
});

const leg = samplePart('hall-bench-leg.yaml');

test('drawn twice a part is the same, byte for byte', async () => {
  const other = samplePart('hall-bench-leg.yaml');
  expect(svgOf(fullSize(other))).toBe(svgOf(fullSize(leg)));
  expect(writeDxf(fullSize(other), { unit: 'mm', splines: true })).toBe(
    writeDxf(fullSize(leg), { unit: 'mm', splines: true }),
  );
  expect(await pdfOf(fullSize(other))).toEqual(await pdfOf(fullSize(leg)));
});

describe('layers', () => {
  test('group lines by what they mean', () => {
    const svg = svgOf(fullSize(leg, { parallel: 3 }));
    expect([...svg.matchAll(/<g id="(\w+)">/g)].map(([, id]) => id)).toEqual([
      'marks',
      'text',
      'parallel',
      'saw',
      'cut',
    ]);
    expect(groupOf(svg, 'cut')).toMatch(
      /^\s*<path class="cut" [^>]*><title>Finished line<\/title><\/path>\s*$/,
    );
    expect(groupOf(svg, 'text')).toContain('>Hall bench leg</text>');
    expect(groupOf(svg, 'text')).toContain('>nail 12, 3 1/4</text>');
  });

  test('are optional content of the PDF, all of them shown at first', async () => {
    const pdf = await openPdf(await pdfOf(fullSize(leg)));
    const config = await pdf.getOptionalContentConfig();
    const names = [...config].map(([, group]) => (group as { name: string }).name);
    expect(names.sort()).toEqual(['cut', 'marks', 'saw', 'text']);
    for (const [id] of config) expect(config.isVisible({ type: 'OCG', id })).toBe(true);
  });

  test('asked for are the only ones drawn', () => {
    const { lines, words } = fullSize(leg, { only: ['saw', 'text'] });
    expect(lines.map(({ layer }) => layer)).toEqual(['saw']);
    expect(words.length).toBeGreaterThan(0);
    expect(fullSize(leg, { only: ['cut'] }).words).toEqual([]);
  });

  test('that hold nothing are refused', () => {
    const bare = partOf('part: Rail\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - line: [100, 0]\n');
    expect(() => fullSize(bare, { only: ['saw'] })).toThrow(
      expect.objectContaining({ code: 'draw.nothing' }),
    );
    expect(() => fullSize(leg, { only: ['parallel'] })).toThrow(
      expect.objectContaining({ code: 'draw.nothing' }),
    );
    expect(() => fullSize(leg, { only: ['cut'], parallel: 2 })).toThrow(
      expect.objectContaining({ code: 'draw.parallel-left-out' }),
    );
  });

  test('a drawing for a machine has no page behind it that could be cut out', () => {
    expect(svgOf(fullSize(leg))).not.toContain('<rect');
  });
});

describe('a parallel', () => {
  test.each([3, -3])('%d mm lies that far off, outside when positive', (away) => {
    const full = fullSize(leg, { parallel: away });
    const places = placesOn(svgLine(full, 'parallel'), 3);
    const off = distancesFrom(trueLine(leg), places);
    expect(Math.min(...off)).toBeGreaterThan(3 - FIT_MM);
    const box = pathBounds(finishedLine(leg.shape));
    const beyond = ({ x, y }: Point): boolean =>
      x < box.left || x > box.right || y < box.bottom || y > box.top;
    expect(places.some(beyond)).toBe(away > 0);
  });

  test('of 0, and one too far inside, are refused', () => {
    expect(() => fullSize(leg, { parallel: 0 })).toThrow(
      expect.objectContaining({ code: 'draw.parallel-zero' }),
    );
    expect(() => fullSize(leg, { parallel: -60 })).toThrow(expect.objectContaining({ key: '--parallel' }));
  });
});

describe('copies', () => {
  const exact = placesOn(trueLine(leg), 12);

  test('a mirrored part is its mirror image in the same place, its words still to be read', () => {
    const full = fullSize(leg, { mirror: true });
    const box = pathBounds(finishedLine(leg.shape));
    const mirrored = exact.map(({ x, y }) => point(box.left + box.right - x, y));
    expect(farthestFrom(svgLine(full, 'cut'), mirrored)).toBeLessThanOrEqual(FIT_MM);
    const { lines } = readDxf(writeDxf(full, { unit: 'mm', splines: false }));
    expect(farthestFrom(lines.find(({ layer }) => layer === 'cut')!.line, mirrored)).toBeLessThanOrEqual(
      FIT_MM,
    );
    expect(svgOf(full)).not.toContain('rotate(');
    expect(svgOf(full)).toMatch(/text-anchor="end">Hall bench leg</);
  });

  test('are whole wherever they are placed', () => {
    const moves = [translate(rotate(30), 500, -200), translate(rotate(180), 0, 900)] as const;
    const full = { ...fullSize(leg, { only: ['cut'] }), copies: moves };
    const { lines } = readDxf(writeDxf(full, { unit: 'mm', splines: false }));
    expect(lines.map(({ closed }) => closed)).toEqual([true, true]);
    moves.forEach((move, i) => {
      const there = exact.map((place) => transformPoint(move, place));
      expect(farthestFrom(lines[i]!.line, there)).toBeLessThanOrEqual(FIT_MM);
      expect(farthestFrom(svgLine(full, 'cut', i), there)).toBeLessThanOrEqual(FIT_MM);
    });
  });
});

describe('the page', () => {
  test('is as large as what is drawn, with a margin, in true mm', () => {
    const { drawing } = fullSizePage(fullSize(leg, { only: ['cut'] }));
    expect(drawing.width).toBeCloseTo(34 * 25.4 + 10, 6);
    expect(svgOf(fullSize(leg, { only: ['cut'] }))).toContain('width="873.6mm"');
  });

  test('of a PDF may be 200 in at most', () => {
    const long = partOf(
      'part: Ridge\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - arc: [6000, 0]\n      rise: 300\n',
    );
    expect(() => assertFitsPdfPage(fullSizePage(fullSize(long)).drawing)).toThrow(
      expect.objectContaining({ code: 'draw.page-too-long' }),
    );
    expect(() => assertFitsPdfPage(fullSizePage(fullSize(leg)).drawing)).not.toThrow();
  });
});

test('property: whatever two battens bound, SVG and DXF follow them and each other, and close', () => {
  const share = fc.double({ min: 0.02, max: 0.12, noNaN: true });
  const nail = fc.double({ min: 0.25, max: 0.75, noNaN: true });
  const size = fc.constantFrom(0.5, 60, 900, 12_000);
  fc.assert(
    fc.property(size, share, share, nail, fc.boolean(), (length, under, over, at, mirror) => {
      const mm = (part: number): string => (part * length).toFixed(6);
      const edge = (name: string, base: number, rise: number): string =>
        `  ${name}:\n    - from: [0, ${mm(base)}]\n    - batten: [${mm(1)}, ${mm(base)}]\n      through: [${mm(at)}, ${mm(base + rise)}]\n`;
      const part = partOf(
        `part: Rail\nunits: mm\nedges:\n${edge('under', 0, under)}${edge('over', 0.3, over)}`,
      );
      const full = fullSize(part, { only: ['cut'], mirror });
      const [dxf] = readDxf(writeDxf(full, { unit: 'mm', splines: false })).lines;
      expect(dxf!.closed).toBe(true);
      const exact = placesOn(trueLine(part), 9).map((place) => transformPoint(full.copies[0]!, place));
      const svg = svgLine(full, 'cut');
      expect(farthestFrom(dxf!.line, exact)).toBeLessThanOrEqual(FIT_MM);
      expect(farthestFrom(svg, exact)).toBeLessThanOrEqual(FIT_MM);
      expect(apart(svg, dxf!.line, 3)).toBeLessThanOrEqual(FIT_MM);
    }),
    { numRuns: 5 },
  );
});
