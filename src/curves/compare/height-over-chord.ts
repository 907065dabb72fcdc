import { itemAt, neighbors } from '../../units/checked.ts';
import type { Curve } from '../curve.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import { type CurvePoint, paramCurve } from '../geometry/evaluate.ts';
import { direction, dot, type Point } from '../geometry/point.ts';
import { newtonRoot, type ValueAndSlope } from '../numeric/roots-and-minima.ts';

/** Stations at which two curves are compared; between two of them they cross at most once. */
export const HEIGHT_SAMPLES = 64;

export interface PointOverChord extends CurvePoint {
  readonly height: number;
}

interface Sample {
  readonly share: number;
  readonly u: number;
  readonly place: (u: number) => CurvePoint;
}

/** Newton's method doubles its digits: after a step this small, as a share of the piece, the error is some 1e-12. */
const STEP_TOLERANCE = 1e-6;

/** A curve as heights over the stations of its chord, given as shares of it. */
export class HeightFunction {
  private readonly samples: readonly Sample[];
  private readonly frame: ChordFrame;
  private readonly isMonotonic: boolean;
  private stationsCache: readonly PointOverChord[] | undefined;

  constructor({ from, to, exact }: Curve) {
    this.frame = new ChordFrame(from, to);
    this.samples = exact.flatMap((piece) => {
      const place = paramCurve(piece);
      return Array.from({ length: HEIGHT_SAMPLES + 1 }, (_, i) => {
        const u = i / HEIGHT_SAMPLES;
        return { share: this.share(place(u)), u, place };
      });
    });
    this.isMonotonic = neighbors(this.samples).every(([before, after]) => after.share >= before.share);
  }

  get stations(): readonly PointOverChord[] {
    this.stationsCache ??= Array.from({ length: HEIGHT_SAMPLES + 1 }, (_, i) => this.at(i / HEIGHT_SAMPLES));
    return this.stationsCache;
  }

  private share = (p: Point): number => this.frame.station(p) / this.frame.length;
  private overChord = (at: CurvePoint): PointOverChord => ({ ...at, height: this.frame.height(at) });

  /** The point over a share of the chord: of several, the one farthest from the chord. */
  at(share: number): PointOverChord {
    const across: PointOverChord[] = [];
    const { samples } = this;
    for (let i = this.isMonotonic ? this.lowerBound(share) : 1; i < samples.length; i++) {
      const [before, after] = [itemAt(samples, i - 1), itemAt(samples, i)];
      if (this.isMonotonic && before.share > share) break;
      if (before.place === after.place && (before.share - share) * (after.share - share) <= 0)
        across.push(this.overChord(this.solveStation(before, after, share)));
    }
    if (across.length > 0) return across.reduce((a, b) => (Math.abs(b.height) > Math.abs(a.height) ? b : a));
    // Rounding can leave a station between two pieces, or just outside the ends.
    const off = (s: Sample): number => Math.abs(s.share - share);
    const nearest = samples.reduce((a, b) => (off(b) < off(a) ? b : a));
    return this.overChord(nearest.place(nearest.u));
  }

  private lowerBound(share: number): number {
    let low = 1;
    let high = this.samples.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (itemAt(this.samples, middle).share < share) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  private solveStation(before: Sample, after: Sample, share: number): CurvePoint {
    const { place } = before;
    const side = after.share >= before.share ? 1 : -1;
    const off = (u: number): ValueAndSlope => {
      const now = place(u);
      const value = side * (this.share(now) - share) * this.frame.length;
      return { value, slope: side * now.speed * dot(direction(now.angle), this.frame.along) };
    };
    const rise = after.share - before.share || 1;
    const start = before.u + ((after.u - before.u) * (share - before.share)) / rise;
    return place(newtonRoot(off, before.u, after.u, start, STEP_TOLERANCE));
  }
}
