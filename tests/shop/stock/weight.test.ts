import { describe, expect, test } from 'vitest';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { planStock } from '../../../src/shop/stock/stock-plan.ts';
import { densityOf, missingWeightWarnings, weighPart } from '../../../src/shop/stock/weight.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { partOf, samplePart } from '../../part/jobs.ts';

const plank = (stock: string) =>
  partOf(`part: Plank
units: mm
${stock}
edges:
  lower:
    - from: [0, 0]
    - line: [1000, 0]
  upper:
    - from: [0, 100]
    - line: [1000, 100]
`);

describe('weighPart', () => {
  test('white oak at 12 % moisture weighs its specific gravity and its water', () => {
    // 0.68 × 1000 × 1.12 kg/m³ (specific gravity: Wood Handbook, Table 5-3b)
    expect(densityOf(findSpecies('white oak'))).toBeCloseTo(761.6, 9);
  });

  test('an import, tabulated on green volume, weighs more by its shrinkage', () => {
    // 0.55 ÷ (1 − 0.265 × 0.6 × 0.55) × 1120 (Wood Handbook, chapter 4, from memory)
    expect(densityOf(findSpecies('teak'))).toBeCloseTo(675.04, 1);
  });

  test('a plank of 1000 × 100 × 40 mm and its board have the masses worked out by hand', () => {
    const { partMass, boardMass, balance } = weighPart(
      plank('stock: {species: white oak, length: 1200, width: 150, thickness: 40}'),
    );
    expect(partMass).toBeCloseTo(1 * 0.1 * 0.04 * 761.6, 9);
    // The blank is 12.5 mm longer and 6 mm wider than the part.
    expect(boardMass).toBeCloseTo(1.0125 * 0.106 * 0.04 * 761.6, 9);
    expect(balance.x).toBeCloseTo(500, 9);
  });

  test('the weight is the same in the sawing and in the stock plan', () => {
    for (const species of ['teak', 'honduran mahogany', 'white oak']) {
      const part = plank(`stock: {species: ${species}, length: 1200, width: 150, thickness: 40}`);
      expect(planStock(part, {}).amount?.weight?.part).toBeCloseTo(weighPart(part).partMass!, 12);
    }
  });

  test('the leg balances where a polygon of many corners does', () => {
    const part = samplePart('hall-bench-leg.yaml');
    if (part.shape.type !== 'closed') throw new Error('the leg is closed');
    const corners = part.shape.outline.flatMap((segment) => {
      const at = paramCurve(segment);
      return Array.from({ length: 200 }, (_, i) => at(i / 200));
    });
    let [area, moment] = [0, 0];
    corners.forEach((p, i) => {
      const q = corners[(i + 1) % corners.length]!;
      const twice = p.x * q.y - q.x * p.y;
      area += twice / 2;
      moment += (twice * (p.x + q.x)) / 6;
    });
    const { balance, partMass } = weighPart(part);
    // 200 chords a segment leave 1/200² of a rise of 40 mm
    expect(balance.x).toBeCloseTo(moment / area, 2);
    expect(partMass! / (area * 1.75 * 25.4 * 761.6e-9)).toBeCloseTo(1, 4);
  });
});

describe('missingWeightWarnings', () => {
  const codes = (stock: string) => missingWeightWarnings(plank(stock)).map(({ code }) => code);

  test.each([
    ['', ['saw.no-thickness', 'saw.no-species']],
    ['stock: {thickness: 40}', ['saw.no-species']],
    ['stock: {species: white oak}', ['saw.no-thickness']],
    ['stock: {species: white oak, thickness: 40}', []],
  ])('%s', (stock, missing) => {
    expect(codes(stock)).toEqual(missing);
    const weights = weighPart(plank(stock));
    expect(weights.partMass === undefined).toBe(missing.length > 0);
    expect(weights.balance.x).toBeCloseTo(500, 9);
  });
});

test('stock for many parts weighs at the saw what the blank of one part does, smaller stock no more than itself', () => {
  const massOn = (length: number, width: number) =>
    weighPart(plank(`stock: {species: white oak, length: ${length}, width: ${width}, thickness: 40}`))
      .boardMass!;
  expect(massOn(4200, 300)).toBeCloseTo(massOn(1100, 110), 12);
  expect(massOn(1005, 101)).toBeCloseTo(1.005 * 0.101 * 0.04 * 761.6, 9);
});

test("one line on a board weighs its board, with the board's edge on the reference line", () => {
  const { boardMass, partMass, board } = weighPart(samplePart('hall-bench-stretcher.yaml'));
  expect(boardMass).toBeCloseTo(46.5 * 2.25 * 0.875 * 25.4 ** 3 * 761.6e-9, 9);
  expect(partMass).toBeUndefined();
  expect([board.bottom, board.top]).toEqual([0, 2.25 * 25.4]);
});

test('the board under one line is on the side with most of the line', () => {
  const rail = (from: number, to: number) => {
    const { board, boardBalance } = weighPart(
      partOf(
        `part: Rail\nunits: mm\nstock: {width: 80, length: 700}\nedges:\n  a:\n    - from: [0, ${from}]\n    - line: [600, ${to}]\n`,
      ),
    );
    expect([board.left, board.right]).toEqual([-6.25, 606.25]);
    expect(boardBalance).toEqual({ x: 300, y: (board.bottom + board.top) / 2 });
    return [board.bottom, board.top];
  };
  expect(rail(10, 60)).toEqual([0, 80]);
  expect(rail(-10, -60)).toEqual([-80, 0]);
  expect(rail(-60, 10)).toEqual([-80, 0]);
  expect(rail(-10, 60)).toEqual([0, 80]);
  // Below by a hair, and as far below as above: the latter lies as a line above does.
  expect(rail(-30.5, 30)).toEqual([-80, 0]);
  expect(rail(-30, 30)).toEqual([0, 80]);
  // No board is narrower than its line.
  expect(rail(-100, -20)).toEqual([-100, 0]);
});
