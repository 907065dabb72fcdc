import { describe, expect, test } from 'vitest';
import { point } from '../../src/curves/geometry/point.ts';
import { toleranceText } from '../../src/export/drawing/dimensions.ts';
import { expectedError } from '../../src/tiling/expected-error.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../src/tiling/tile.ts';
import { defaultRule } from '../../src/units/rule.ts';
import { backLeg, block } from './parts.ts';

const options = { paper: parsePaper('letter'), margin: 12.7, overlap: 15, turn: 0 } as const;
const [start, end] = [point(0, 10), point(34 * 25.4, 10)];

describe('what a measure may be off', () => {
  const leg = layOut(backLeg(), options);

  test('grows with the length by what bars and damp leave, and by the root of the seams', () => {
    // By hand: 863.6 mm over 1A to 1D: 863.6 · (0.002 + 0.001) + 0.3 · √3 = 3.1104 mm.
    expect(expectedError(leg, start, end)).toBeCloseTo(3.1104, 4);
    // The same way back, and within one sheet no seam: 100 · 0.003.
    expect(expectedError(leg, end, start)).toBeCloseTo(3.1104, 4);
    expect(expectedError(leg, point(20, 10), point(120, 10))).toBeCloseTo(0.3, 9);
  });

  test('is less where the printer was measured on its sheet', () => {
    const measured = layOut(backLeg(), { ...options, printer: { across: 1, down: 1 } });
    // 863.6 · (0.2/200 + 0.001) + 0.3 · √3
    expect(expectedError(measured, start, end)).toBeCloseTo(2.2468, 4);
  });

  test('on one sheet has no seams in it', () => {
    expect(expectedError(layOut(block(150, 100), options), point(0, 0), point(150, 100))).toBeCloseTo(
      Math.hypot(150, 100) * 0.003,
      9,
    );
  });
});

test.each([
  ['in', 5.7, '± 1⁄4″'],
  ['in', 0.1, '± 1⁄32″'],
  ['in', 0, '± 1⁄32″'],
  ['in', 25.4 / 16, '± 1⁄16″'],
  ['mm', 2.2, '± 2.5 mm'],
  ['mm', 2, '± 2 mm'],
] as const)('on a rule in %s %d mm is rounded up to %s', (unit, mm, shown) => {
  expect(toleranceText(mm, defaultRule(unit))).toBe(shown);
});
