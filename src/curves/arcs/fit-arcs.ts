import type { Piece } from '../geometry/pieces/piece.ts';
import { direction, distance } from '../geometry/point.ts';
import { type ArcTrial, flattestThrough, trialOf } from './arc-error.ts';
import { SPOTS_AN_ARC, type Spot, spotsAlong } from './arc-samples.ts';
import { arcAlong, arcInto, type BulgedArc, biarc } from './biarc.ts';

/** Whether a curve's ends go on smoothly: there the arcs keep its tangent; elsewhere that is theirs to choose. */
export interface Joined {
  readonly start: boolean;
  readonly end: boolean;
}

/**
 * How far the arcs' tangents may lean off the curve's where two biarcs meet, in parts of the best lean. A
 * smooth chain of arcs that lies ±ε beside a curve of evenly changing curvature, with as few arcs as can be,
 * has an error shaped as the third Bernoulli polynomial: over arcs of length h it crosses the curve at every
 * joint with the slope 6√3·ε/h. Biarcs with the curve's own tangents need 1.45 times as many.
 */
const LEANS = [-1.25, -1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1, 1.25];
const BEST_LEAN = 6 * Math.sqrt(3);

/** No arc spans more spots than this: only round an apex does one reach beyond SPOTS_AN_ARC. */
const MOST_SPAN = 4 * SPOTS_AN_ARC;

/** Spots passed over at a time when the farthest is sought. */
const STRIDE = 6;

/** Far beyond any furniture: a slip of the tolerance ends here. */
const MOST_ARCS = 5000;

/** The farthest a chain of arcs gets with a lean of its last tangent, and the chain, last arcs first. */
interface Reach {
  readonly at: number;
  readonly angle: number;
  readonly arcs: readonly BulgedArc[];
  readonly before?: Reach;
}

/**
 * Arcs that meet with one tangent, within `tolerance` (mm) of a smooth run of pieces, and nearly as few as
 * any arcs can be (the tests compare): biarcs between places on the curve, each kept as long as the tolerance
 * allows. For each count of arcs and each lean of the last tangent the farthest place is kept, so that the
 * first count that reaches the end is the least. (A shortest path over biarcs, as Drysdale, Rote and Sturm
 * 2008, "Approximation of an open polygonal curve with a minimum number of circular arcs and biarcs",
 * Computational Geometry 41, but with the tangents free.)
 * @throws Error past MOST_ARCS
 */
export function fitArcs(pieces: readonly Piece[], tolerance: number, joined: Joined): BulgedArc[] {
  return new ArcFit(spotsAlong(pieces, tolerance), tolerance, joined).arcs();
}

class ArcFit {
  private readonly end: number;
  private readonly fits: ArcTrial;

  constructor(
    private readonly spots: readonly Spot[],
    private readonly tolerance: number,
    private readonly joined: Joined,
  ) {
    this.end = spots.length - 1;
    this.fits = trialOf(spots, tolerance);
  }

  arcs(): BulgedArc[] {
    const { start, end } = this.joined;
    const whole = [flattestThrough(this.spots, 0, this.end)];
    if (!start && !end && this.fits(whole, 0, this.end)) return whole;
    const first = (start ? [0] : LEANS).map(
      (lean): Reach => ({ at: 0, angle: this.angle(0, lean), arcs: [] }),
    );
    const levels: Reach[][] = [first];
    for (let count = 1; count <= MOST_ARCS; count++) {
      const [back, two] = [levels[count - 1] ?? [], levels[count - 2] ?? []];
      const done = this.finish(back, two);
      if (done) return done;
      levels.push(count === 1 && !start ? this.startArcs() : this.longest(two));
    }
    throw new Error(`arcs: more than ${MOST_ARCS} needed within ${this.tolerance} mm`);
  }

  /** To the end by one arc more, where its tangent is free there, or by a biarc. */
  private finish(one: readonly Reach[], two: readonly Reach[]): BulgedArc[] | undefined {
    const end = this.spots[this.end]!;
    if (!this.joined.end)
      for (const before of one) {
        const arcs = [arcAlong(this.spots[before.at]!, direction(before.angle), end)];
        if (this.fits(arcs, before.at, this.end)) return chain({ at: this.end, angle: 0, arcs, before });
      }
    for (const before of two)
      for (const lean of this.joined.end ? [0] : LEANS) {
        const arcs = this.biarcTo(before, this.end, lean);
        if (arcs && this.fits(arcs, before.at, this.end))
          return chain({ at: this.end, angle: 0, arcs, before });
      }
    return undefined;
  }

  /** Single arcs from a free start, one for each lean at their other end. */
  private startArcs(): Reach[] {
    const [from] = this.spots;
    return LEANS.flatMap((lean) => {
      const arcTo = (at: number): [BulgedArc] => [
        arcInto(from!, this.spots[at]!, direction(this.angle(at, lean))),
      ];
      const at = this.farthest(0, 0, 1, (place) => this.fits(arcTo(place), 0, place));
      return at === undefined ? [] : [{ at, angle: this.angle(at, lean), arcs: arcTo(at) }];
    });
  }

  /** For each lean the longest of the biarcs from any of the reaches before. */
  private longest(reaches: readonly Reach[]): Reach[] {
    return LEANS.flatMap((lean) => {
      let best: Reach | undefined;
      for (const before of reaches) {
        const does = (place: number): boolean => {
          const arcs = this.biarcTo(before, place, lean);
          return arcs !== undefined && this.fits(arcs, before.at, place);
        };
        const at = this.farthest(before.at, best?.at ?? before.at, 2, does);
        if (at === undefined) continue;
        best = { at, angle: this.angle(at, lean), arcs: this.biarcTo(before, at, lean) ?? [], before };
      }
      return best ? [best] : [];
    });
  }

  private biarcTo({ at, angle }: Reach, to: number, lean: number): BulgedArc[] | undefined {
    return biarc(this.spots[at]!, direction(angle), this.spots[to]!, direction(this.angle(to, lean)));
  }

  private angle(at: number, lean: number): number {
    return this.spots[at]!.angle + (lean === 0 ? 0 : lean * this.bestLean(at));
  }

  /** The slope at the joints of the fewest arcs, as long as SPOTS_AN_ARC of the spots round about. */
  private bestLean(at: number): number {
    const [from, to] = [Math.max(0, at - SPOTS_AN_ARC / 2), Math.min(this.end, at + SPOTS_AN_ARC / 2)];
    const length = (distance(this.spots[from]!, this.spots[to]!) * SPOTS_AN_ARC) / (to - from);
    return (BEST_LEAN * this.tolerance) / length;
  }

  /**
   * The farthest spot past `above` to which `count` arcs from one will do. Where some length does, a shorter
   * one need not (arcs that lean fit at their own length), so they are tried from as far as arcs are wont to reach.
   */
  private farthest(
    from: number,
    above: number,
    count: number,
    does: (at: number) => boolean,
  ): number | undefined {
    const usual = Math.min(this.end, from + count * SPOTS_AN_ARC);
    const most = Math.min(this.end, from + count * MOST_SPAN);
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

function chain(last: Reach): BulgedArc[] {
  const links: (readonly BulgedArc[])[] = [];
  for (let reach: Reach | undefined = last; reach; reach = reach.before) links.push(reach.arcs);
  return links.reverse().flat();
}
