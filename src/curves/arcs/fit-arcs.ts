import { firstOf, itemAt } from '../../units/checked.ts';
import type { Piece } from '../geometry/pieces/piece.ts';
import { direction, distance } from '../geometry/point.ts';
import { type ArcTest, arcThroughMiddle, withinTolerance } from './arc-error.ts';
import { type ArcSample, SAMPLES_PER_ARC, sampleForArcs } from './arc-samples.ts';
import { arcFromTangent, arcToTangent, type BulgedArc, biarc } from './biarc.ts';

/** Whether the arcs keep the tangent at the ends of the curve; otherwise they are free to choose it. */
export interface SmoothEnds {
  readonly start: boolean;
  readonly end: boolean;
}

/**
 * Tried deviations of the tangent where biarcs meet, in shares of 6√3·ε/h: the slope at the joints of the fewest arcs
 * within ±ε of a curve of evenly changing curvature, whose error is the third Bernoulli polynomial. Biarcs with the
 * curve's own tangents need 1.45 times as many.
 */
const TANGENT_OFFSETS = [-1.25, -1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1, 1.25];
const OPTIMAL_OFFSET = 6 * Math.sqrt(3);

/** Most samples per arc: only round an apex does one reach beyond the usual count. */
const MAX_SPAN = 4 * SAMPLES_PER_ARC;

const STRIDE = 6;

/** Far more than any furniture needs: a mistyped tolerance ends here. */
const MAX_ARCS = 5000;

/** The farthest that a chain of arcs gets with a given deviation of its last tangent; last arcs first. */
interface PartialFit {
  readonly at: number;
  readonly tangentAngle: number;
  readonly arcs: readonly BulgedArc[];
  readonly previous?: PartialFit;
}

/**
 * Arcs that meet with one tangent within `tolerance` (mm) of a smooth run, nearly as few as can be. For each count and
 * last tangent the farthest sample is kept, so the first count that reaches the end is the least (as Drysdale, Rote
 * and Sturm 2008, Computational Geometry 41, but with free tangents).
 */
export function fitArcs(pieces: readonly Piece[], tolerance: number, joined: SmoothEnds): BulgedArc[] {
  return new ArcFitter(sampleForArcs(pieces, tolerance), tolerance, joined).solve();
}

class ArcFitter {
  private readonly end: number;
  private readonly isWithinTolerance: ArcTest;

  constructor(
    private readonly samples: readonly ArcSample[],
    private readonly tolerance: number,
    private readonly smooth: SmoothEnds,
  ) {
    this.end = samples.length - 1;
    this.isWithinTolerance = withinTolerance(samples, tolerance);
  }

  solve(): BulgedArc[] {
    const { start, end } = this.smooth;
    const whole = [arcThroughMiddle(this.samples, 0, this.end)];
    if (!start && !end && this.isWithinTolerance(whole, 0, this.end)) return whole;
    const first = (start ? [0] : TANGENT_OFFSETS).map(
      (lean): PartialFit => ({ at: 0, tangentAngle: this.angle(0, lean), arcs: [] }),
    );
    const levels: PartialFit[][] = [first];
    for (let count = 1; count <= MAX_ARCS; count++) {
      const [back, two] = [levels[count - 1] ?? [], levels[count - 2] ?? []];
      const done = this.tryFinish(back, two);
      if (done) return done;
      levels.push(count === 1 && !start ? this.singleArcsFromStart() : this.extendByBiarc(two));
    }
    throw new Error(`arcs: more than ${MAX_ARCS} needed within ${this.tolerance} mm`);
  }

  private tryFinish(one: readonly PartialFit[], two: readonly PartialFit[]): BulgedArc[] | undefined {
    const end = itemAt(this.samples, this.end);
    if (!this.smooth.end)
      for (const previous of one) {
        const from = itemAt(this.samples, previous.at);
        const arcs = [arcFromTangent(from, direction(previous.tangentAngle), end)];
        if (this.isWithinTolerance(arcs, previous.at, this.end)) return collectArcs(previous, arcs);
      }
    for (const previous of two)
      for (const lean of this.smooth.end ? [0] : TANGENT_OFFSETS) {
        const arcs = this.biarcTo(previous, this.end, lean);
        if (arcs && this.isWithinTolerance(arcs, previous.at, this.end)) return collectArcs(previous, arcs);
      }
    return undefined;
  }

  private singleArcsFromStart(): PartialFit[] {
    const from = firstOf(this.samples);
    return TANGENT_OFFSETS.flatMap((lean) => {
      const arcTo = (at: number): BulgedArc[] => [
        arcToTangent(from, itemAt(this.samples, at), direction(this.angle(at, lean))),
      ];
      const at = this.farthestReachable(0, 0, 1, (place) => this.isWithinTolerance(arcTo(place), 0, place));
      return at === undefined ? [] : [{ at, tangentAngle: this.angle(at, lean), arcs: arcTo(at) }];
    });
  }

  private extendByBiarc(reaches: readonly PartialFit[]): PartialFit[] {
    return TANGENT_OFFSETS.flatMap((lean) => {
      let best: PartialFit | undefined;
      for (const previous of reaches) {
        const does = (place: number): boolean => {
          const arcs = this.biarcTo(previous, place, lean);
          return arcs !== undefined && this.isWithinTolerance(arcs, previous.at, place);
        };
        const at = this.farthestReachable(previous.at, best?.at ?? previous.at, 2, does);
        const arcs = at === undefined ? undefined : this.biarcTo(previous, at, lean);
        if (at !== undefined && arcs) best = { at, tangentAngle: this.angle(at, lean), arcs, previous };
      }
      return best ? [best] : [];
    });
  }

  private biarcTo({ at, tangentAngle }: PartialFit, to: number, lean: number): BulgedArc[] | undefined {
    const [from, end] = [itemAt(this.samples, at), itemAt(this.samples, to)];
    return biarc(from, direction(tangentAngle), end, direction(this.angle(to, lean)));
  }

  private angle(at: number, lean: number): number {
    return itemAt(this.samples, at).angle + (lean === 0 ? 0 : lean * this.optimalOffset(at));
  }

  private optimalOffset(at: number): number {
    const [from, to] = [Math.max(0, at - SAMPLES_PER_ARC / 2), Math.min(this.end, at + SAMPLES_PER_ARC / 2)];
    const chord = distance(itemAt(this.samples, from), itemAt(this.samples, to));
    const length = (chord * SAMPLES_PER_ARC) / (to - from);
    return (OPTIMAL_OFFSET * this.tolerance) / length;
  }

  /** If one length fits, a shorter one need not, so the search starts from the usual reach. */
  private farthestReachable(
    from: number,
    above: number,
    count: number,
    does: (at: number) => boolean,
  ): number | undefined {
    const usual = Math.min(this.end, from + count * SAMPLES_PER_ARC);
    const most = Math.min(this.end, from + count * MAX_SPAN);
    for (let at = usual; at > above; at -= STRIDE) {
      if (!does(at)) continue;
      const next = at === usual ? most : at + STRIDE - 1;
      while (at < next && does(at + 1)) at++;
      return at;
    }
    for (let at = Math.min(usual, above + STRIDE); at > above; at--) if (does(at)) return at;
    return undefined;
  }
}

function collectArcs(previous: PartialFit | undefined, last: readonly BulgedArc[]): BulgedArc[] {
  const links = [last];
  for (let reach = previous; reach; reach = reach.previous) links.push(reach.arcs);
  return links.reverse().flat();
}
