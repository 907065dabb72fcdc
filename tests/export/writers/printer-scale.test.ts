import { describe, expect, test } from 'vitest';
import { invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { distance, dot, lerp, type Point, subtract } from '../../../src/curves/geometry/point.ts';
import { printerSheet } from '../../../src/export/cover/printer-sheet.ts';
import { writePatternPdf, writePdf } from '../../../src/export/writers/pdf.ts';
import type { Part } from '../../../src/part/part.ts';
import type { Layout } from '../../../src/tiling/layout.ts';
import { POINTS_PER_MM, pageMatrix } from '../../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { archTop, backLeg } from '../../tiling/parts.ts';
import { fontBytes } from '../font.ts';
import { cutPoints, distanceToLine, looksLike } from '../printed-line.ts';
import { type ReadPage, type ReadPdf, readPdf } from '../read-pdf.ts';

const font = fontBytes();

/** What a corrected pattern may be off on paper over its whole length, mm: what a printer's dots are. */
const CORRECTED_MM = 0.05;

/** A printer that prints 1.2 % long across the paper and 0.7 % short down it. */
const ACROSS = 1.012;
const DOWN = 0.993;
const PRINTER = { name: 'long one', across: ACROSS, down: DOWN };

/** What lies on the paper: the printer turns a page wider than high to fit its upright paper. */
const onPaper =
  ({ width, height }: ReadPage) =>
  ({ x, y }: Point): Point => {
    const [alongX, alongY] = width > height ? [DOWN, ACROSS] : [ACROSS, DOWN];
    return { x: (x / POINTS_PER_MM) * alongX, y: (y / POINTS_PER_MM) * alongY };
  };

interface Printed {
  readonly part: Part;
  readonly layout: Layout;
  readonly pdf: ReadPdf;
}

async function print(part: Part, turn: number, corrected = true): Promise<Printed> {
  const layout = layOut(part, {
    paper: parsePaper('a4'),
    margin: 12.7,
    overlap: 15,
    turn,
    ...(corrected && { printer: PRINTER }),
  });
  return { part, layout, pdf: await readPdf(await writePatternPdf(part, layout, { font, cover: false })) };
}

/** Largest distance of the finished line on paper from the part's, each sheet laid where it belongs. */
function worst({ part, layout, pdf }: Printed): number {
  const off = distanceToLine(part);
  return Math.max(
    ...pdf.pages.flatMap((page, i) => {
      const back = invert(layout.sheets[i]!.toSheet);
      const place = onPaper(page);
      return cutPoints(page)
        .filter((_, k) => k % 7 === 0)
        .map((at) => off(transformPoint(back, place(at))));
    }),
  );
}

describe('a printer that prints 1.2 % long across and 0.7 % short down', () => {
  test.each([
    ['a leg on lying sheets', backLeg, 0, 'lying'],
    ['a leg on upright sheets', backLeg, 90, 'upright'],
    ['an arch on upright sheets', archTop, 60, 'upright'],
  ] as const)('prints %s true once it is made good', async (_, make, turn, orientation) => {
    const printed = await print(make(), turn);
    expect(printed.layout.orientation).toBe(orientation);
    expect(worst(printed)).toBeLessThan(CORRECTED_MM);
    expect(worst(await print(make(), turn, false))).toBeGreaterThan(1);
  });

  test('has pages of the paper’s own size, and keeps its margins on them', async () => {
    for (const turn of [0, 90]) {
      const { layout, pdf } = await print(backLeg(), turn);
      pdf.pages.forEach(({ width, height }, i) => {
        const { window, stretch } = layout.sheets[i]!;
        const [short, long] = [(210 * 72) / 25.4, (297 * 72) / 25.4];
        expect(Math.min(width, height)).toBeCloseTo(short, 3);
        expect(Math.max(width, height)).toBeCloseTo(long, 3);
        expect(window.left / stretch.x).toBeCloseTo(12.7, 9);
        expect(window.bottom / stretch.y).toBeCloseTo(12.7, 9);
        expect(width / POINTS_PER_MM - window.right / stretch.x).toBeCloseTo(12.7, 3);
        expect(height / POINTS_PER_MM - window.top / stretch.y).toBeCloseTo(12.7, 3);
      });
    }
  });

  test('shows a true rule 100 mm on every bar, and says on every sheet for which printer it is', async () => {
    const { pdf } = await print(backLeg(), 0);
    for (const page of pdf.pages) {
      const place = onPaper(page);
      const lengths = page.strokes
        .filter((stroke) => looksLike(stroke, 'rule') && stroke.steps.length === 2)
        .map(({ steps }) => distance(place(steps[0]!.points[0]!), place(steps[1]!.points[0]!)));
      // One line for both scales is as long as the longer; the end marks tell the other.
      expect(lengths.some((length) => Math.abs(length - 101.6) < 0.001)).toBe(true);
      const feet = page.strokes
        .filter((stroke) => looksLike(stroke, 'rule') && stroke.steps.length === 2)
        .map(({ steps }) => place(steps[0]!.points[0]!));
      const apart = feet.flatMap((a) => feet.map((b) => distance(a, b)));
      expect(apart.some((length) => Math.abs(length - 100) < 0.001)).toBe(true);
      const words = page.words.map(({ text }) => text).join(' ');
      expect(words).toMatch(/corrected for long one: 101\.2% across, 99\.3% down/);
    }
  });

  test('maps the part to the page by the matrix that is told', async () => {
    const { part, layout, pdf } = await print(archTop(), 0);
    const off = distanceToLine(part);
    pdf.pages.forEach((page, i) => {
      const back = invert(pageMatrix(layout.sheets[i]!));
      for (const at of cutPoints(page).filter((_, k) => k % 9 === 0))
        expect(off(transformPoint(back, at))).toBeLessThan(CORRECTED_MM);
    });
  });

  test('its sheets have another code than those of a true one', async () => {
    expect((await print(backLeg(), 0)).layout.code).not.toBe((await print(backLeg(), 0, false)).layout.code);
  });
});

describe('the printer sheet', () => {
  test.each(['a4', 'letter', 'roll:24in', '220x260mm'])(
    'on %s has one line of 200 mm each way, on the paper',
    async (paper) => {
      const pages = printerSheet(parsePaper(paper), 200, '200 mm');
      const { pages: read } = await readPdf(await writePdf(pages, 'sheet', font));
      const [page] = read;
      const strokes = page!.strokes.map(({ steps }) => [steps[0]!.points[0]!, steps[1]!.points[0]!] as const);
      const lines = strokes.filter(([a, b]) => distance(a, b) > 100 * POINTS_PER_MM);
      expect(lines).toHaveLength(2);
      // What the rule is laid to: a mark square over either end, its middle on the line.
      for (const [a, b] of lines)
        for (const end of [a, b])
          expect(
            strokes.filter(
              ([p, q]) =>
                distance(lerp(p, q, 0.5), end) < 1e-3 &&
                distance(p, q) > 3 * POINTS_PER_MM &&
                Math.abs(dot(subtract(q, p), subtract(b, a))) < 1e-3 * distance(a, b),
            ),
          ).toHaveLength(1);
      for (const [a, b] of lines) {
        expect(distance(a, b) / POINTS_PER_MM).toBeCloseTo(200, 3);
        for (const { x, y } of [a, b]) {
          expect(Math.min(x, page!.width - x, y, page!.height - y)).toBeGreaterThan(4.9 * POINTS_PER_MM);
        }
      }
      const isAcross = lines.map(([a, b]) => Math.abs(a.y - b.y) < 1e-3);
      expect(isAcross.sort()).toEqual([false, true]);
    },
  );

  test('on paper too small for its lines it says how long they may be', () => {
    expect(() => printerSheet(parsePaper('160x200mm'), 200, '200 mm')).toThrow(/Use 150 mm or less/);
  });

  test('all its words find room, on small paper over further pages', () => {
    for (const [paper, nominal] of [
      ['a4', 200],
      ['120x180mm', 100],
    ] as const) {
      const words = printerSheet(parsePaper(paper), nominal, `${nominal} mm`)
        .flatMap(({ drawing }) => drawing.items)
        .flatMap((item) => (item.type === 'words' ? [item.text] : []))
        .join(' ');
      expect(words).toContain(`such as ${nominal * 0.997} mm across`);
      expect(words).toContain('Check the print settings and print again.');
    }
  });
});
