import { describe, expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import type { Point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { type FullSize, fullSizeBounds } from '../../../src/export/full-size/full-size.ts';
import { fullSizeOnBoard } from '../../../src/export/full-size/full-size-on-board.ts';
import { writeDxf } from '../../../src/export/writers/dxf.ts';
import type { Part } from '../../../src/part/part.ts';
import { planStock, type StockPlanOptions } from '../../../src/shop/stock/stock-plan.ts';
import { partOf, samplePart, sampleText } from '../../part/jobs.ts';
import { isWithin, nearest } from '../../shop/laid.ts';
import { farthestFrom, meant, placesOn } from '../drawn-line.ts';
import { groupOf, svgLine, svgOf } from '../full-size-files.ts';
import { type ReadLine, readDxf } from '../read-dxf.ts';

const nested = (part: Part, wish: StockPlanOptions) => planStock(part, wish).nesting!;

const someOf = (name: string, quantity: number): Part =>
  partOf(`${sampleText(name).replace(/^quantity: .*$/m, '')}\nquantity: ${quantity}\n`);

const linesOf = (full: FullSize, layer: string, splines = false): ReadLine[] =>
  readDxf(writeDxf(full, { unit: 'mm', splines })).lines.filter((line) => line.layer === layer);

/** What a cut line of straight chords between these places may hide, mm: they stand under 2 mm apart. */
const BETWEEN_MM = 0.01;

const placesAlong = ({ line }: ReadLine): Point[] => placesOn(line, 40);

const BOARDS: readonly (readonly [string, number, StockPlanOptions])[] = [
  ['hall-bench-leg.yaml', 3, { boardLength: 900, boardWidth: 260, kerf: 4 }],
  ['wall-shelf-bracket.yaml', 5, { boardLength: 700, boardWidth: 420, kerf: 3, between: 2 }],
  ['wall-shelf-bracket.yaml', 2, { boardLength: 500, boardWidth: 420, grain: 0.2 }],
  ['hall-bench/leg.yaml', 6, { boardLength: 520, boardWidth: 180 }],
];

describe.each(BOARDS)('%s, %i wanted', (name, quantity, wish) => {
  const part = someOf(name, quantity);
  const nesting = nested(part, wish);
  const numbers = Array.from({ length: nesting.boards }, (_, i) => i + 1);

  test('draws each copy whole and closed in its place, once over all boards', () => {
    const exact = placesOn(meant(part.exact), 12);
    let drawn = 0;
    for (const board of numbers) {
      const full = fullSizeOnBoard(part, nesting, { board });
      const copies = nesting.copiesOn(board);
      const cuts = linesOf(full, 'cut');
      expect(cuts.map(({ closed }) => closed)).toEqual(copies.map(() => true));
      copies.forEach(({ toBoard }, i) => {
        const there = exact.map((place) => transformPoint(toBoard, place));
        expect(farthestFrom(cuts[i]!.line, there)).toBeLessThanOrEqual(FIT_MM);
        expect(farthestFrom(svgLine(full, 'cut', i), there)).toBeLessThanOrEqual(FIT_MM);
      });
      drawn += cuts.length;
    }
    expect(drawn).toBe(quantity);
  });

  test('draws copies inside their board, and apart by the saw kerf, as read back', () => {
    for (const board of numbers) {
      const full = fullSizeOnBoard(part, nesting, { board, only: ['saw', 'board'] });
      const [edge] = linesOf(full, 'board');
      const corners = placesOn(edge!.line, 1);
      const [length, width] = (['x', 'y'] as const).map((side) => Math.max(...corners.map((at) => at[side])));
      expect(edge!.closed).toBe(true);
      expect(Math.min(...corners.flatMap(({ x, y }) => [x, y]))).toBe(0);
      expect([length, width]).toEqual([wish.boardLength, wish.boardWidth]);
      const saws = linesOf(full, 'saw').map(placesAlong);
      for (const { x, y } of saws.flat())
        expect(Math.min(x, y, length! - x, width! - y)).toBeGreaterThan(-FIT_MM);
      saws.forEach((one, i) => {
        for (const other of saws.slice(i + 1))
          expect(nearest(one, other)).toBeGreaterThan(nesting.gap - 2 * FIT_MM - BETWEEN_MM);
      });
    }
  });
});

describe('a mirrored pair', () => {
  const part = someOf('hall-bench/leg.yaml', 6);
  const nesting = nested(part, { boardLength: 520, boardWidth: 180 });

  test('has three copies of either hand, each mirrored one marked beside its number', () => {
    expect(nesting.boards).toBe(2);
    const texts = [1, 2].flatMap(
      (board) =>
        readDxf(writeDxf(fullSizeOnBoard(part, nesting, { board }), { unit: 'mm', splines: false })).texts,
    );
    const numbers = texts.map(({ text }) => text).filter((text) => /^\d/.test(text));
    expect(numbers.map((text) => Number.parseInt(text, 10)).sort()).toEqual([1, 2, 3, 4, 5, 6]);
    expect(numbers.filter((text) => text.endsWith('mirrored'))).toHaveLength(3);
    const hands = [1, 2].flatMap((board) =>
      linesOf(fullSizeOnBoard(part, nesting, { board }), 'cut').map((cut) => windingOf(placesAlong(cut))),
    );
    // The outline runs counter-clockwise; only in a mirror it runs the other way.
    expect(hands.filter((winding) => winding > 0)).toHaveLength(3);
    expect(hands.filter((winding) => winding < 0)).toHaveLength(3);
  });
});

/** Twice the area, positive counter-clockwise. */
const windingOf = (places: readonly Point[]): number =>
  places.reduce((sum, { x, y }, i) => {
    const next = places[(i + 1) % places.length]!;
    return sum + x * next.y - next.x * y;
  }, 0);

describe('words', () => {
  test('name the board, are never upside down, and each number stands inside its own copy', () => {
    const part = someOf('wall-shelf-bracket.yaml', 6);
    const nesting = nested(part, { boardLength: 700, boardWidth: 900 });
    const full = fullSizeOnBoard(part, nesting, { board: 1 });
    expect(groupOf(svgOf(full), 'text')).toMatch(/1 \D+ 1\D+700 mm\D+900 mm\D+6\D+6/);
    const { texts, lines } = readDxf(writeDxf(full, { unit: 'mm', splines: false }));
    const cuts = lines.filter(({ layer }) => layer === 'cut').map(placesAlong);
    for (let i = 0; i < 6; i++) {
      const { at } = texts.find(({ text }) => text === String(i + 1))!;
      expect(cuts.map((cut) => isWithin(cut, at))).toEqual(cuts.map((_, j) => j === i));
    }
    for (const { turn = 0 } of full.background!.words)
      expect(Math.abs(turn)).toBeLessThanOrEqual(Math.PI / 2 + 1e-9);
  });

  test('stay in the wood of a rail that is hollow below its middle', () => {
    const rail = samplePart('garden-arch-rail.yaml');
    const full = fullSizeOnBoard(rail, nested(rail, {}), { board: 1 });
    const { texts, lines } = readDxf(writeDxf(full, { unit: 'mm', splines: false }));
    const cut = placesAlong(lines.find(({ layer }) => layer === 'cut')!);
    expect(isWithin(cut, texts.find(({ text }) => text === '1')!.at)).toBe(true);
  });

  test('and board are left out where only the cut is asked for', () => {
    const part = samplePart('hall-bench-leg.yaml');
    const nesting = nested(part, { boardWidth: 260 });
    const full = fullSizeOnBoard(part, nesting, { board: 1, only: ['cut'] });
    const file = readDxf(writeDxf(full, { unit: 'mm', splines: true }));
    expect(new Set(file.lines.map(({ layer }) => layer))).toEqual(new Set(['cut']));
    expect(file.texts).toEqual([]);
    expect(fullSizeBounds(full).bottom).toBeGreaterThan(0);
    expect(() => fullSizeOnBoard(part, nesting, { board: 1, only: ['joints'] })).toThrow(
      expect.objectContaining({ code: 'draw.nothing' }),
    );
  });
});

describe('what cannot be drawn', () => {
  const leg = samplePart('hall-bench-leg.yaml');
  const nesting = nested(leg, { boardWidth: 260, kerf: 4 });

  test('a board that is not there is refused', () => {
    expect(() => fullSizeOnBoard(leg, nesting, { board: 2 })).toThrow(
      expect.objectContaining({ code: 'draw.no-such-board' }),
    );
    const two = nested(leg, { boardWidth: 110 });
    expect(() => fullSizeOnBoard(leg, two, { board: 3 })).toThrow(
      expect.objectContaining({ code: 'draw.no-such-board' }),
    );
  });

  test('parallels that would cross are refused; parallels just apart are drawn apart', () => {
    // Saw lines lie 4 mm apart, 1/16 in outside the finished ones: 2 × (p − 1.5875) = 4 at p = 3.5875.
    expect(() => fullSizeOnBoard(leg, nesting, { board: 1, parallel: 3.6 })).toThrow(
      expect.objectContaining({ code: 'draw.parallels-cross', key: '--parallel' }),
    );
    const full = fullSizeOnBoard(leg, nesting, { board: 1, parallel: 3.5, only: ['parallel'] });
    const [one, other] = linesOf(full, 'parallel').map(placesAlong);
    expect(nearest(one!, other!)).toBeGreaterThan(2 * (3.5875 - 3.5) - 2 * FIT_MM - BETWEEN_MM);
  });
});
