import { Fault } from '../units/fault.ts';
import { along, type Place, segmentEnd } from './along.ts';
import { arc } from './arc.ts';
import { batten } from './batten.ts';
import { bow } from './bow.ts';
import type { Curve } from './curve.ts';
import { apexOf } from './figures.ts';
import { angleOf, cross, direction, distance, dot, type Point, subtract } from './point.ts';
import { rootBetween } from './search.ts';
import { spline } from './spline.ts';
import { JOIN_MM } from './tolerance.ts';

/**
 * The kinds that a maker would weigh one against the other for the same bend; the batten is the uniform
 * one, free at both ends, over one nail.
 */
export const COMPARED = ['arc', 'batten', 'bow', 'spline'] as const;
export type ComparedKind = (typeof COMPARED)[number];

/** How far another kind of curve lies from a run, measured square off their chord. */
export interface Apart {
  readonly kind: ComparedKind;
  /** That other curve, to draw. */
  readonly curve: Curve;
  /** The greatest distance, mm. */
  readonly worst: number;
  /** Where that is: the place on the run, whose x is the station. */
  readonly at: Point;
  /** Whether the other kind has the run's own apex; arc and bow always have theirs in the middle. */
  readonly sameApex: boolean;
}

/** Stations of the apex closer than this share of the chord are the same: 0.1 mm on a metre. */
const SAME_APEX = 1e-4;

/**
 * How far other kinds of curve lie from a run when they are drawn between the same ends with the same
 * rise, to the same side. A batten and a spline also get the run's apex, by the nail or point that puts
 * it there; an arc and a bow cannot, so that off the middle the distance tells what it costs to have the
 * apex there. Left out are kinds that do not exist for this bend and those the run is one of.
 * @returns in the order of COMPARED; empty for a straight run
 */
export function liesApart(run: Curve): Apart[] {
  const { from, to } = run;
  const apex = apexOf(run.exact, from, to);
  if (!apex) return [];
  const chord = angleOf(from, to);
  const rise = cross(direction(chord), subtract(apex.at, from));
  const station = dot(direction(chord), subtract(apex.at, from));
  const inMiddle = Math.abs(station / distance(from, to) - 0.5) < SAME_APEX;
  const profile = new Profile(run);
  return COMPARED.flatMap((kind) => {
    if (kind === 'batten' && isFreeOverOneNail(run)) return [];
    const other = ifItExists(() => likeIt(kind, from, to, apex.at, rise));
    const gap = other && gapBetween(profile, new Profile(other));
    const movable = kind === 'batten' || kind === 'spline';
    return other && gap && gap.worst > JOIN_MM
      ? [{ kind, curve: other, ...gap, sameApex: movable || inMiddle }]
      : [];
  });
}

/** Curvature at an end below this share of that at the nail is none: rounding. */
const NO_BEND = 1e-9;

/** Whether a run is the very batten it would be compared with, which takes a search to find again. */
function isFreeOverOneNail({ kind, exact }: Curve): boolean {
  const [first, second, ...more] = exact;
  if (kind !== 'batten' || first?.type !== 'elastica' || second?.type !== 'elastica' || more.length > 0)
    return false;
  const most = NO_BEND * Math.abs(second.curvature);
  return Math.abs(first.curvature) <= most && Math.abs(segmentEnd(second).curvature) <= most;
}

function likeIt(kind: ComparedKind, from: Point, to: Point, apex: Point, rise: number): Curve | undefined {
  switch (kind) {
    case 'arc':
      return arc(from, to, { rise });
    case 'bow':
      return bow(from, to, rise);
    case 'batten':
      return batten(from, to, { apex });
    case 'spline':
      return splineByApex(from, to, apex);
  }
}

/** A kind may not exist for a bend; then there is nothing to compare, and nothing is wrong. */
function ifItExists(make: () => Curve | undefined): Curve | undefined {
  try {
    return make();
  } catch (error) {
    if (error instanceof Fault) return undefined;
    throw error;
  }
}

/**
 * The natural spline over one point with its apex at `apex`, by the beam with one load: with the point
 * a from the farther end and b from the nearer, the apex lies √(a(a + 2b)/3) from the farther end.
 * Undefined past 1/√3 of the chord, where no point moves it.
 */
function splineByApex(from: Point, to: Point, apex: Point): Curve | undefined {
  const chord = distance(from, to);
  const way = direction(angleOf(from, to));
  const station = dot(way, subtract(apex, from));
  const far = Math.max(station, chord - station);
  const short = Math.sqrt(chord ** 2 - 3 * far ** 2);
  const long = chord - short;
  if (!(short > 0)) return undefined;
  const rise = cross(way, subtract(apex, from));
  const height = (rise * 2 * long ** 2 * short) / (far * (chord ** 2 - short ** 2 - far ** 2));
  const x = station * 2 >= chord ? long : short;
  const through = { x: from.x + way.x * x - way.y * height, y: from.y + way.y * x + way.x * height };
  return spline([from, through, to], 'natural', 'natural');
}

/** Stations at which two curves are held side by side; between two of them they lie apart at most once. */
const SAMPLES = 64;
/** Of two distances closer than this, as a share, the first counts: a symmetric pair has two alike. */
const ALIKE = 1e-9;

/**
 * The greatest distance between two curves over the same chord, square off it, and the place on the
 * first where it is. Exact to 1e-9 of the chord. Where a curve stands over a station more than once
 * (it overhangs an end) its place farthest from the chord counts.
 */
export const greatestGap = (one: Curve, other: Curve): Gap | undefined =>
  gapBetween(new Profile(one), new Profile(other));

interface Gap {
  readonly worst: number;
  readonly at: Point;
}

function gapBetween(first: Profile, second: Profile): Gap | undefined {
  let best: Gap | undefined;
  const weigh = (a: OverChord, b: OverChord): void => {
    const worst = Math.abs(a.height - b.height);
    if (worst > (best?.worst ?? 0) * (1 + ALIKE)) best = { worst, at: { x: a.x, y: a.y } };
  };
  const parallel = (a: OverChord, b: OverChord): number => Math.sin(a.angle - b.angle);
  const [ones, others] = [first.stations, second.stations];
  const leans = ones.map((one, i) => parallel(one, others[i]!));
  // The distance is greatest where both run the same way.
  for (let i = 1; i < leans.length; i++) {
    if (!(leans[i - 1]! * leans[i]! < 0)) continue;
    const lean = (share: number): number => parallel(first.at(share), second.at(share));
    const share = rootBetween(lean, (i - 1) / SAMPLES, i / SAMPLES);
    if (share !== undefined) weigh(first.at(share), second.at(share));
  }
  ones.forEach((one, i) => {
    weigh(one, others[i]!);
  });
  return best;
}

interface OverChord extends Place {
  readonly height: number;
}

interface Sample {
  readonly share: number;
  readonly u: number;
  readonly place: (u: number) => Place;
}

/** Newton steps to the place over a station; between two samples it takes 3 or 4. */
const MOST_STEPS = 8;
/** Newton's method doubles its digits: after a step this small, as a share of the piece, some 1e-12 is left. */
const STEP_DONE = 1e-6;

/** A curve as heights over the stations of its chord, which are told as shares of it. */
class Profile {
  private readonly samples: readonly Sample[];
  private readonly chord: number;
  private readonly way: Point;
  /** Whether every station is passed once, in order. */
  private readonly advances: boolean;
  private known: readonly OverChord[] | undefined;

  constructor(private readonly curve: Curve) {
    this.chord = distance(curve.from, curve.to);
    this.way = direction(angleOf(curve.from, curve.to));
    this.samples = curve.exact.flatMap((piece) => {
      const place = along(piece);
      return Array.from({ length: SAMPLES + 1 }, (_, i) => {
        const u = i / SAMPLES;
        return { share: this.share(place(u)), u, place };
      });
    });
    this.advances = this.samples.every(({ share }, i) => i === 0 || share >= this.samples[i - 1]!.share);
  }

  /** The places over SAMPLES equal steps along the chord, its two ends included. */
  get stations(): readonly OverChord[] {
    this.known ??= Array.from({ length: SAMPLES + 1 }, (_, i) => this.at(i / SAMPLES));
    return this.known;
  }

  private share(p: Point): number {
    return dot(subtract(p, this.curve.from), this.way) / this.chord;
  }

  private overChord({ x, y, angle, curvature, speed }: Place): OverChord {
    const height = cross(this.way, subtract({ x, y }, this.curve.from));
    return { x, y, angle, curvature, speed, height };
  }

  /** The place over a share of the chord: of the steps across it, the one farthest from the chord. */
  at(share: number): OverChord {
    const across: OverChord[] = [];
    const { samples } = this;
    for (let i = this.advances ? this.firstFrom(share) : 1; i < samples.length; i++) {
      const before = samples[i - 1]!;
      const after = samples[i]!;
      if (this.advances && before.share > share) break;
      if (before.place === after.place && (before.share - share) * (after.share - share) <= 0)
        across.push(this.overChord(this.placeBetween(before, after, share)));
    }
    if (across.length > 0) return across.reduce((a, b) => (Math.abs(b.height) > Math.abs(a.height) ? b : a));
    // Rounding can leave a station between two pieces, or just outside the ends.
    const off = (s: Sample): number => Math.abs(s.share - share);
    const nearest = samples.reduce((a, b) => (off(b) < off(a) ? b : a));
    return this.overChord(nearest.place(nearest.u));
  }

  /** The first sample at or past a share, by halving, and not the very first of all. */
  private firstFrom(share: number): number {
    let low = 1;
    let high = this.samples.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.samples[middle]!.share < share) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  private placeBetween(before: Sample, after: Sample, share: number): Place {
    const { place } = before;
    const off = (u: number): number => this.share(place(u)) - share;
    let u = before.u + ((after.u - before.u) * (share - before.share)) / (after.share - before.share || 1);
    for (let i = 0; i < MOST_STEPS; i++) {
      const now = place(u);
      const step =
        ((this.share(now) - share) * this.chord) / (now.speed * dot(direction(now.angle), this.way));
      u -= step;
      if (!(u >= before.u && u <= after.u)) break;
      if (Math.abs(step) < STEP_DONE) return place(u);
    }
    return place(rootBetween(off, before.u, after.u) ?? after.u);
  }
}
