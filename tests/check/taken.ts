import { signedDistanceFrom } from '../../src/check/fit/rigid-fit.ts';
import { type TakeOff, takeOff } from '../../src/check/fit/take-off.ts';
import { HAND_SIGMA_MM } from '../../src/check/readings/reading-error.ts';
import { offsetAt } from '../../src/part/offsets.ts';
import type { PartEdge } from '../../src/part/part.ts';
import type { Rule } from '../../src/units/rule.ts';
import { partOf } from '../part/jobs.ts';
import { byHand, IN, seeded, stationsOf, trueReadings } from './bench.ts';

export const curve = (step: string): PartEdge =>
  partOf(`part: Rail\nunits: in\nedges:\n  a:\n    - from: [0, 1]\n    - ${step}\n`).edges[0]!;
export const CURVES = {
  arc: curve('arc: [40, 2]\n      rise: 3'),
  bow: curve('bow: [40, 2]\n      rise: 9'),
  batten: curve('batten: [40, 2]\n      through: [13, 4]'),
  line: curve('line: [40, 2]'),
} as const;

/** The curve taken off against the true edge, over its stations, mm. */
export function rmsOff({ kinds: [best] }: TakeOff, edge: PartEdge): number {
  const distanceOf = signedDistanceFrom(best.curves.flatMap(({ exact }) => exact));
  const off = stationsOf(edge, IN).map((x) => distanceOf({ x, y: offsetAt(edge, x)! }).distance);
  return Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length);
}

/**
 * Standard error of a curve of p unknowns over n readings, rms over its length: the trace of the hat matrix is p,
 * so its mean square at the readings is p·sigma²/n.
 */
const standardError = (unknowns: number, readings: number, sigma: number): number =>
  sigma * Math.sqrt(unknowns / readings);

/**
 * How often a curve comes back within two standard errors: the curve is read by hand, with one bad reading, once for
 * each seed.
 */
export function timesBack(
  kind: 'arc' | 'batten',
  unknowns: number,
  rule: Rule,
  seeds: readonly number[],
): number {
  const edge = CURVES[kind];
  const exact = trueReadings(edge, stationsOf(edge, 2 * IN));
  return seeds.filter((seed) => {
    const readings = byHand(exact, rule, HAND_SIGMA_MM, seeded(seed)).map((each, i) =>
      i === 6 ? { ...each, offset: each.offset + IN / 4 } : each,
    );
    const taken = takeOff(readings, rule);
    return rmsOff(taken, edge) <= 2 * standardError(unknowns, taken.readings.length, taken.sigma);
  }).length;
}
