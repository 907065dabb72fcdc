import { Fault } from '../units/fault.ts';
import { along, type Place } from './along.ts';
import { arc } from './arc.ts';
import { batten } from './batten.ts';
import { bow } from './bow.ts';
import type { Curve } from './curve.ts';
import { apexOf } from './figures.ts';
import { angleOf, cross, direction, distance, dot, type Point, subtract } from './point.ts';
import { rootBetween, rootsOnUnit } from './search.ts';
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
  return COMPARED.flatMap((kind) => {
    const other = ifItExists(() => likeIt(kind, from, to, apex.at, rise));
    const gap = other && greatestGap(run, other);
    const movable = kind === 'batten' || kind === 'spline';
    return other && gap && gap.worst > JOIN_MM
      ? [{ kind, curve: other, ...gap, sameApex: movable || inMiddle }]
      : [];
  });
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
export function greatestGap(one: Curve, other: Curve): { worst: number; at: Point } | undefined {
  const [first, second] = [new Profile(one), new Profile(other)];
  const parallel = (share: number): number => Math.sin(first.at(share).angle - second.at(share).angle);
  let best: { worst: number; at: Point } | undefined;
  const weigh = (share: number): void => {
    const [a, b] = [first.at(share), second.at(share)];
    const worst = Math.abs(a.height - b.height);
    if (worst > (best?.worst ?? 0) * (1 + ALIKE)) best = { worst, at: { x: a.x, y: a.y } };
  };
  // The distance is greatest where both run the same way.
  for (const share of rootsOnUnit(parallel, SAMPLES)) weigh(share);
  for (let i = 0; i <= SAMPLES; i++) weigh(i / SAMPLES);
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

/** A curve as heights over the stations of its chord, which are told as shares of it. */
class Profile {
  private readonly samples: readonly Sample[];
  private readonly chord: number;
  private readonly way: Point;

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
  }

  private share(p: Point): number {
    return dot(subtract(p, this.curve.from), this.way) / this.chord;
  }

  private overChord = (place: Place): OverChord => ({
    ...place,
    height: cross(this.way, subtract(place, this.curve.from)),
  });

  /** The place over a share of the chord: of the steps across it, the one farthest from the chord. */
  at(share: number): OverChord {
    const across = this.samples.flatMap((after, i) => {
      const before = this.samples[i - 1];
      const steps = before?.place === after.place && (before.share - share) * (after.share - share) <= 0;
      return steps ? [this.overChord(this.placeBetween(before, after, share))] : [];
    });
    if (across.length > 0) return across.reduce((a, b) => (Math.abs(b.height) > Math.abs(a.height) ? b : a));
    // Rounding can leave a station between two pieces, or just outside the ends.
    const off = (s: Sample): number => Math.abs(s.share - share);
    const nearest = this.samples.reduce((a, b) => (off(b) < off(a) ? b : a));
    return this.overChord(nearest.place(nearest.u));
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
      if (Math.abs(step) < Number.EPSILON) return place(u);
    }
    return place(rootBetween(off, before.u, after.u) ?? after.u);
  }
}
