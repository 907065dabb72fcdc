import { expect, test } from 'vitest';
import { along } from '../../src/curves/along.ts';
import { chordsOf } from '../../src/curves/chords.ts';
import type { Segment } from '../../src/curves/piece.ts';
import { cross, distance, point, subtract } from '../../src/curves/point.ts';

const ARC: Segment = { type: 'arc', centre: point(3, -900), radius: 950, start: 2, sweep: -0.9 };
const CUBIC: Segment = {
  type: 'cubic',
  controls: [point(0, 0), point(50, 300), point(250, -300), point(400, 10)],
};

test.each([
  ['arc', ARC],
  ['cubic', CUBIC],
])('the chords of an %s keep within their tolerance, and no closer than it takes', (_, segment) => {
  for (const tolerance of [1, 0.1, 0.005]) {
    const corners = chordsOf([segment], tolerance);
    const count = corners.length - 1;
    const at = along(segment);
    let worst = 0;
    for (let i = 0; i < count; i++) {
      const [from, to] = [corners[i]!, corners[i + 1]!];
      for (let k = 0; k <= 10; k++) {
        const p = at((i + k / 10) / count);
        worst = Math.max(worst, Math.abs(cross(subtract(to, from), subtract(p, from))) / distance(from, to));
      }
    }
    expect(worst).toBeLessThanOrEqual(tolerance * (1 + 1e-9));
    expect(worst).toBeGreaterThan(tolerance / 10);
  }
});

test('a straight line is one chord, and a path begins where it begins', () => {
  const path: Segment[] = [
    { type: 'line', from: point(0, 0), to: point(5, 1) },
    { type: 'line', from: point(5, 1), to: point(7, 9) },
  ];
  expect(chordsOf(path, 0.01)).toEqual([point(0, 0), point(5, 1), point(7, 9)]);
});
