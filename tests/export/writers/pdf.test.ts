import { beforeAll, describe, expect, test } from 'vitest';
import { invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { evaluate } from '../../../src/curves/geometry/evaluate.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { type Drawing, polyline } from '../../../src/export/drawing/drawing.ts';
import { patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import { writePatternPdf, writePdf } from '../../../src/export/writers/pdf.ts';
import type { Part } from '../../../src/part/part.ts';
import type { Layout } from '../../../src/tiling/layout.ts';
import { POINTS_PER_MM, pageMatrix } from '../../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { archTop, backLeg, shelfFront } from '../../tiling/parts.ts';
import { fontBytes } from '../font.ts';
import { cutPoints, distanceToLine, looksLike, toChord } from '../printed-line.ts';
import { type ReadPage, type ReadPdf, readPdf } from '../read-pdf.ts';

const font = fontBytes();
const DEFAULTS = { margin: 12.7, overlap: 15 } as const;

/** What a pattern may be off on paper, mm: far less than a printer's 0.05 mm. */
const PLACED_MM = 0.01;

interface Printed {
  readonly part: Part;
  readonly layout: Layout;
  readonly pdf: ReadPdf;
}

async function print(part: Part, paper: string, turn: 'auto' | number = 'auto'): Promise<Printed> {
  const layout = layOut(part, { paper: parsePaper(paper), ...DEFAULTS, turn });
  return { part, layout, pdf: await readPdf(await writePatternPdf(part, layout, { font, cover: true })) };
}

let leg: Printed;
let all: Printed[];
beforeAll(async () => {
  leg = await print(backLeg(), 'letter');
  all = [
    leg,
    await print(archTop(), 'a4'),
    await print(shelfFront(), 'a4', 33),
    await print(backLeg(), 'a3', 90),
  ];
});

const sheetPages = ({ layout, pdf }: Printed): ReadPage[] => pdf.pages.slice(-layout.sheets.length);

describe('the finished line on paper', () => {
  test('mapped back from every sheet it lies on the line of the part', () => {
    for (const printed of all) {
      const off = distanceToLine(printed.part);
      sheetPages(printed).forEach((page, i) => {
        const back = invert(pageMatrix(printed.layout.sheets[i]!));
        const points = cutPoints(page);
        expect(points.length).toBeGreaterThan(20);
        for (const at of points.filter((_, k) => k % 5 === 0))
          expect(off(transformPoint(back, at))).toBeLessThan(PLACED_MM);
      });
    }
  });

  test("every point of the part's line is on a sheet", () => {
    const { part, layout } = leg;
    if (part.shape.type !== 'closed') throw new Error('the leg is closed');
    const back = invert(pageMatrix(layout.sheets[0]));
    const drawn = cutPoints(sheetPages(leg)[0]!).map((at) => transformPoint(back, at));
    for (const segment of part.shape.outline)
      for (let i = 0; i <= 10; i++) {
        const at = evaluate(segment, i / 10);
        const nearest = Math.min(...drawn.slice(1).map((b, k) => toChord(drawn[k]!, b, at)));
        // Chords of a fortieth of a 660 mm cubic sag under 0.1 mm.
        expect(nearest).toBeLessThan(0.1);
      }
  });

  test('curves are native Béziers: four control points for a cubic, not a chain of lines', () => {
    const page = sheetPages(leg)[0]!;
    const cut = page.strokes.find((stroke) => looksLike(stroke, 'sheet-cut') && stroke.steps.length > 2)!;
    expect(cut.steps.filter(({ type }) => type === 'curve')).toHaveLength(1);
  });
});

describe('register marks', () => {
  const RING_RADIUS_MM = 3;

  function rings(page: ReadPage): Point[] {
    return page.strokes
      .filter((stroke) => looksLike(stroke, 'register') && stroke.steps.some(({ type }) => type === 'curve'))
      .map(({ steps }) => {
        const ends = steps.map(({ points }) => points.at(-1)!);
        const [xs, ys] = [ends.map(({ x }) => x), ends.map(({ y }) => y)];
        return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 };
      });
  }

  test('of neighbors coincide on the part', () => {
    for (const printed of all) {
      const found = sheetPages(printed).flatMap((page, i) =>
        rings(page).map((at) => transformPoint(invert(pageMatrix(printed.layout.sheets[i]!)), at)),
      );
      expect(found.length).toBeGreaterThan(0);
      for (const at of found) {
        const same = found.filter((other) => distance(at, other) < RING_RADIUS_MM);
        expect(same).toHaveLength(2);
        expect(distance(same[0]!, same[1]!)).toBeLessThan(PLACED_MM);
      }
    }
  });
});

describe('scale bars', () => {
  /** From the first end mark of a bar, whose ticks go both ways, to the other end mark of its scales. */
  function spans(page: ReadPage, way: 'x' | 'y'): number[] {
    const across = way === 'x' ? 'y' : 'x';
    const ticks = page.strokes
      .filter((stroke) => looksLike(stroke, 'rule') && stroke.steps.length === 2)
      .map(({ steps }) => steps.map(({ points }) => points[0]!) as [Point, Point])
      .filter(
        ([a, b]) =>
          Math.abs(a[way] - b[way]) < 1e-3 &&
          Math.abs(Math.abs(a[across] - b[across]) - 3 * POINTS_PER_MM) < 0.01,
      );
    return ticks.flatMap(([a]) =>
      ticks
        .filter(([b]) => Math.abs(a[across] - b[across]) < 0.01 && b[way] > a[way] + 10)
        .map(([b]) => b[way] - a[way]),
    );
  }

  test('every sheet has 100 mm = 283.4646 points and 4 in = 288 points, across and down', () => {
    for (const printed of all)
      for (const page of sheetPages(printed))
        for (const way of ['x', 'y'] as const) {
          const found = spans(page, way).sort((a, b) => a - b);
          // Both scales begin at one end mark, so that each length is found from both halves of it.
          expect(found.length).toBeGreaterThanOrEqual(2);
          // 100 / 25.4 · 72 and 4 · 72; the reader keeps single precision, 3e-5 points at 600.
          expect(Math.abs(found[0]! - 283.464567)).toBeLessThan(1e-4);
          expect(Math.abs(found.at(-1)! - 288)).toBeLessThan(1e-4);
        }
  });
});

describe('what the file asks of reader and printer', () => {
  test('no scaling, one side, and the pages called by their sheets', () => {
    expect(leg.pdf.preferences).toMatchObject({ PrintScaling: 'None', Duplex: 'Simplex' });
    expect(leg.pdf.labels).toEqual(['cover', '1A', '1B', '1C', '1D']);
    for (const { part, layout, pdf } of all)
      expect(pdf.labels).toEqual(patternPages(part, layout, true).names);
  });

  test('the pages have the size of the paper: Letter is 612 × 792 points', () => {
    const [cover, ...sheets] = leg.pdf.pages;
    expect([cover!.width, cover!.height]).toEqual([612, 792]);
    for (const { width, height } of sheets) expect([width, height]).toEqual([792, 612]);
  });

  test('an A4 page is not rounded: 210 mm are 595.2756 points', () => {
    const { pdf, layout } = all[1]!;
    expect(pdf.pages[0]!.width).toBeCloseTo((210 * 72) / 25.4, 4);
    expect(pdf.pages[0]!.height).toBeCloseTo((297 * 72) / 25.4, 4);
    expect(layout.paper.width).toBe(210);
  });

  test('it names the part, the code and its maker, and carries no CropBox', async () => {
    expect(leg.pdf.info).toMatchObject({
      Title: `Back leg, ${leg.layout.code}`,
      Creator: 'fairlath',
      Producer: 'fairlath',
    });
    const bytes = await writePatternPdf(leg.part, leg.layout, { font, cover: false });
    expect(Buffer.from(bytes).toString('latin1')).not.toContain('/CropBox');
  });

  test('without a cover the sheets come first', async () => {
    const pdf = await readPdf(await writePatternPdf(leg.part, leg.layout, { font, cover: false }));
    expect(pdf.labels).toEqual(['1A', '1B', '1C', '1D']);
    expect(patternPages(leg.part, leg.layout, false).names).toEqual(pdf.labels);
  });

  test('the same job gives the same bytes', async () => {
    const write = () =>
      writePatternPdf(backLeg(), layOut(backLeg(), { paper: parsePaper('a4'), ...DEFAULTS, turn: 'auto' }), {
        font,
        cover: true,
      });
    const [a, b] = [await write(), await write()];
    expect(Buffer.from(a).equals(Buffer.from(b))).toBe(true);
  });
});

describe('numbers', () => {
  const page = (x: number): { name: string; drawing: Drawing } => ({
    name: '1A',
    drawing: {
      width: 200,
      height: 200,
      items: [
        polyline('cut', [
          { x, y: 1e-9 },
          { x: 20, y: 20 },
        ]),
      ],
    },
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
    '%d is refused before a byte is written',
    async (bad) => {
      await expect(writePdf([page(bad)], 'bad', font)).rejects.toThrow(/drawing holds/);
    },
  );

  test('tiny numbers are written without an exponent', async () => {
    const { pages } = await readPdf(await writePdf([page(1e-9)], 'tiny', font));
    expect(pages[0]!.strokes[0]!.steps[0]!.points[0]!.x).toBeCloseTo(0, 5);
  });
});
