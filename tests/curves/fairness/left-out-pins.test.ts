import { expect, test } from 'vitest';
import { leaveOutPins } from '../../../src/curves/fairness/left-out-pins.ts';
import { smoothLines } from '../../../src/curves/fairness/smooth-lines.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import { gaussianElimination } from '../../../src/curves/numeric/linear-algebra.ts';

const PINS = [0, 31, 55, 60, 52, 33, 0].map((y, i) => point(100 * i + (i % 2) * 9, y));

test('leaving a pin out agrees with solving for the others alone', () => {
  // Dubrule 1983: the value at a pin left out is what kriging with a parabola makes of the others, solved here outright.
  const [along, heights] = [PINS.map(({ x }) => x), PINS.map(({ y }) => y)];
  const [k, share, swell, error] = [3, 0.8, 23, 0.1];
  const length = share * 600;
  const others = along.map((_, i) => i).filter((i) => i !== k);
  const alike = (i: number, j: number): number =>
    swell ** 2 * Math.exp(-(((along[i]! - along[j]!) / length) ** 2) / 2) + (i === j ? error ** 2 : 0);
  const drift = (i: number): number[] => [1, along[i]! / 600, (along[i]! / 600) ** 2];
  const rows = [
    ...others.map((i) => [...others.map((j) => alike(i, j)), ...drift(i), alike(i, k)]),
    ...[0, 1, 2].map((n) => [...others.map((j) => drift(j)[n]!), 0, 0, 0, drift(k)[n]!]),
  ];
  const weights = gaussianElimination(rows)!.values;
  const predicted = others.reduce((sum, i, n) => sum + weights[n]! * heights[i]!, 0);
  const offs = smoothLines(PINS)(error).map(({ at }) => at(k).weighted / at(k).precision);
  const nearest = Math.min(...offs.map((off) => Math.abs(off - (heights[k]! - predicted))));
  expect(nearest).toBeLessThan(1e-6);
});

test('a pin moved off the line moves off by as much, and the others say no less of it', () => {
  const plain = leaveOutPins(PINS)[2]!;
  const moved = leaveOutPins(PINS.map((p, i) => (i === 3 ? point(p.x, p.y + 5) : p)))[2]!;
  // Over the chord the move counts in full; over an arc nearly so. The arc is laid anew through the moved pin.
  expect(moved.off - plain.off).toBeGreaterThan(4.5);
  expect(moved.off - plain.off).toBeLessThan(5.5);
  expect(moved.wrongSide).toBeLessThan(plain.wrongSide);
});
