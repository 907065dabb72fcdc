import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CurvePoint, paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { arc } from '../../../src/curves/simple/arc.ts';
import { line } from '../../../src/curves/simple/line.ts';
import type { SawnEdge } from '../../../src/shop/saw/bends-and-corners.ts';
import { planSupport, type SawTable, type TableEdge } from '../../../src/shop/saw/board-support.ts';

const TABLE: SawTable = { length: 400, width: 400 };
const edge = (pieces: SawnEdge['pieces']): SawnEdge => ({ name: 'a', pieces, woodIsAbove: false });
const boxOf = (length: number, width: number) => ({ left: 0, right: length, bottom: 0, top: width });
const middle = (length: number, width: number) => ({ x: length / 2, y: width / 2 });
const straight = (length: number, y: number) => edge(line({ x: 0, y }, { x: length, y }).exact);

test('a bar of 1000 mm tips off a 400 mm table until 300, and from 700', () => {
  const { tips } = planSupport([straight(1000, 50)], boxOf(1000, 100), middle(1000, 100), TABLE);
  expect(tips).toMatchObject([
    { beyond: 'infeed', from: 0, to: expect.closeTo(300, 6) },
    { beyond: 'outfeed', from: expect.closeTo(700, 6), to: 1000 },
  ]);
});

test('a bar no longer than the table never tips', () => {
  expect(planSupport([straight(400, 50)], boxOf(400, 100), middle(400, 100), TABLE)).toMatchObject({
    tips: [],
    stands: [],
  });
});

/** The board as a grid of equal weights laid on the table: turned and shifted with the cut, then averaged. */
function beyondByGrid(cut: CurvePoint, length: number, width: number, table: SawTable): TableEdge[] {
  const [c, s] = [Math.cos(-cut.angle), Math.sin(-cut.angle)];
  let [ahead, left] = [0, 0];
  const N = 20;
  for (let i = 0; i < N; i++)
    for (let j = 0; j < N; j++) {
      const [x, y] = [((i + 0.5) / N) * length - cut.x, ((j + 0.5) / N) * width - cut.y];
      ahead += (c * x - s * y) / N ** 2;
      left += (s * x + c * y) / N ** 2;
    }
  const found: TableEdge[] = [];
  if (ahead > table.length / 2) found.push('infeed');
  if (ahead < -table.length / 2) found.push('outfeed');
  if (left > table.width / 2) found.push('left');
  if (left < -table.width / 2) found.push('right');
  return found;
}

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

test('a board on a curved cut tips where its weights balance beyond the table', () => {
  fc.assert(
    fc.property(
      size(300, 2500),
      size(0.02, 0.3),
      size(150, 600),
      size(150, 600),
      (length, share, tableLength, tableWidth) => {
        const [width, table] = [length * (share + 0.05), { length: tableLength, width: tableWidth }];
        const { exact } = arc({ x: 0, y: 0 }, { x: length, y: 0 }, { rise: share * length });
        const { tips } = planSupport([edge(exact)], boxOf(length, width), middle(length, width), table);
        const at = paramCurve(exact[0]!);
        for (let i = 1; i < 60; i++) {
          const cut = at(i / 60);
          // Within a hair of where it begins to tip either answer is right.
          if (tips.some(({ from, to }) => Math.min(Math.abs(cut.x - from), Math.abs(cut.x - to)) < 0.01))
            continue;
          const told = tips.filter(({ from, to }) => cut.x > from && cut.x < to).map(({ beyond }) => beyond);
          expect([...told].sort()).toEqual(beyondByGrid(cut, length, width, table).sort());
        }
      },
    ),
    { numRuns: 60 },
  );
});

describe('stands', () => {
  test('a stand is asked for only where one hand does not hold what hangs over', () => {
    fc.assert(
      fc.property(size(450, 2500), size(0.1, 30), (length, mass) => {
        const { tips, stands } = planSupport(
          [straight(length, 50)],
          boxOf(length, 100),
          middle(length, 100),
          TABLE,
          mass,
        );
        // At its beginning and its end the balance point of an even board is half a length from the blade.
        const overhang = length / 2 - TABLE.length / 2;
        for (const tip of tips) expect(tip.overhang).toBeCloseTo(overhang, 6);
        const held = mass * overhang <= 500;
        expect(tips.map(({ byHand }) => byHand)).toEqual([held, held]);
        expect(stands).toHaveLength(held ? 0 : 2);
      }),
    );
  });

  test('a leg of 3 lb, 20 in long, needs none, and a board of unknown weight gets both', () => {
    const plan = (mass?: number) =>
      planSupport([straight(508, 50)], boxOf(508, 100), middle(508, 100), TABLE, mass);
    expect(plan(3 * 0.4536).stands).toEqual([]);
    expect(plan().stands).toHaveLength(2);
  });

  test('stands support a board all the way, before the table and behind it', () => {
    fc.assert(
      fc.property(
        size(500, 4000),
        size(0, 200),
        size(0, 200),
        size(150, 600),
        (cut, before, after, depth) => {
          const [left, right] = [-before, cut + after];
          const balance = (left + right) / 2;
          const table = { length: depth, width: 400 };
          const board = { left, right, bottom: 0, top: 100 };
          const { stands } = planSupport([straight(cut, 50)], board, { x: balance, y: 50 }, table);
          if (stands.some(({ walks }) => walks)) return;
          for (let i = 0; i <= 100; i++) {
            const station = (cut * i) / 100;
            // What bears it, as distances ahead of the blade: the table, and each stand that the board still covers.
            const bears = [-depth / 2, depth / 2];
            for (const { where, fromBlade } of stands) {
              const ahead = where === 'infeed' ? fromBlade : -fromBlade;
              if (station + ahead >= left - 1e-9 && station + ahead <= right + 1e-9) bears.push(ahead);
            }
            expect(balance - station).toBeLessThanOrEqual(Math.max(...bears) + 1e-6);
            expect(balance - station).toBeGreaterThanOrEqual(Math.min(...bears) - 1e-6);
          }
        },
      ),
    );
  });

  test('stands are half the board and a quarter of the table from the blade', () => {
    const { stands } = planSupport([straight(1000, 50)], boxOf(1000, 100), middle(1000, 100), TABLE);
    expect(stands).toEqual([
      { where: 'infeed', station: 600, fromBlade: 600, walks: false },
      { where: 'outfeed', station: 400, fromBlade: 600, walks: false },
    ]);
  });

  test('a board far heavier at its end than the cut is long needs a helper who walks', () => {
    const board = { left: 0, right: 3000, bottom: 0, top: 100 };
    const short = edge(line({ x: 0, y: 50 }, { x: 3000, y: 50 }).exact);
    const { stands } = planSupport([short], board, { x: 2400, y: 50 }, TABLE);
    expect(stands.find(({ where }) => where === 'infeed')?.walks).toBe(true);
  });
});

test('a straight cut does not swing the board, and a quarter circle swings it as far as its chords turn', () => {
  expect(planSupport([straight(1000, 50)], boxOf(1000, 100), middle(1000, 100), TABLE).swing).toBeCloseTo(
    0,
    9,
  );
  const quarter = edge(arc({ x: 0, y: 0 }, { x: 1000, y: 0 }, { rise: 500 * (Math.SQRT2 - 1) }).exact);
  // The tangent leaves at 45°: an end 1000 mm away on the chord lies 1000·sin 45° to the side, and none at the blade.
  const { swing } = planSupport(
    [quarter],
    { left: 0, right: 1000, bottom: 0, top: 0 },
    { x: 500, y: 0 },
    TABLE,
  );
  expect(swing).toBeCloseTo(1000 * Math.SQRT1_2, 6);
});
