import { itemAt } from '../../units/checked.ts';
import { type Point, toPoint } from '../geometry/point.ts';
import { rootBetween } from '../numeric/roots-and-minima.ts';
import { HEIGHT_SAMPLES, type HeightFunction, type PointOverChord } from './height-over-chord.ts';

/** Of two distances closer than this, as a share, the first counts: a symmetric pair has two alike. */
const SAME_SHARE = 1e-9;

/** Square off the common chord, to 1e-9 of it; where a curve overhangs an end its farthest point counts. */
export function maxGap(first: HeightFunction, second: HeightFunction) {
  let best: { worst: number; at: Point } | undefined;
  const weigh = (a: PointOverChord, b: PointOverChord): void => {
    const worst = Math.abs(a.height - b.height);
    if (worst > (best?.worst ?? 0) * (1 + SAME_SHARE)) best = { worst, at: toPoint(a) };
  };
  const parallel = (a: PointOverChord, b: PointOverChord): number => Math.sin(a.angle - b.angle);
  const [ones, others] = [first.stations, second.stations];
  const leans = ones.map((one, i) => parallel(one, itemAt(others, i)));
  // The distance is greatest where both have the same direction.
  for (let i = 1; i < leans.length; i++) {
    if (!(itemAt(leans, i - 1) * itemAt(leans, i) < 0)) continue;
    const lean = (share: number): number => parallel(first.at(share), second.at(share));
    const share = rootBetween(lean, (i - 1) / HEIGHT_SAMPLES, i / HEIGHT_SAMPLES);
    if (share !== undefined) weigh(first.at(share), second.at(share));
  }
  for (const [i, one] of ones.entries()) weigh(one, itemAt(others, i));
  return best;
}
