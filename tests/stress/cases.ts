import type { Point } from '../../src/curves/geometry/point.ts';
import type { Random } from '../fuzz/random.ts';

/** A value between two, every power of ten as likely. */
export const spread = (random: Random, low: number, high: number): number =>
  low * (high / low) ** random.next();

export const either = (random: Random): 1 | -1 => (random.next() < 0.5 ? 1 : -1);

/** A place over a chord of a given length, in shares of it, laid at an angle anywhere on the bench. */
export interface Bench {
  readonly chord: number;
  readonly place: (share: number, height: number) => Point;
}

/** A chord from 5 mm to 50 m, at any angle. */
export function anyBench(random: Random): Bench {
  const chord = spread(random, 5, 50_000);
  const angle = 2 * Math.PI * random.next();
  const [x0, y0] = [1000 * (random.next() - 0.5), 1000 * (random.next() - 0.5)];
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return {
    chord,
    place: (share, height) => ({
      x: x0 + chord * (share * cos - height * sin),
      y: y0 + chord * (share * sin + height * cos),
    }),
  };
}

/** Anywhere along the chord: as often a hair from an end as in the middle. */
export function anyShare(random: Random): number {
  const near = spread(random, 1e-4, 0.5);
  return random.next() < 0.5 ? near : 1 - near;
}
