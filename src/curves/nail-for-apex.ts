import { Fault } from '../units/fault.ts';
import { elasticaStates } from './elastica.ts';
import { apexOf } from './figures.ts';
import { restingShape } from './grow.ts';
import {
  add,
  angleOf,
  direction,
  distance,
  dot,
  leftOf,
  type Point,
  point,
  scale,
  subtract,
} from './point.ts';
import { rootBetween } from './search.ts';
import { spanAt } from './settle.ts';
import { runSpan, spanEnd } from './span.ts';
import { type StripEnds, strip } from './strip.ts';
import { JOIN_MM } from './tolerance.ts';

/*
 * The nail for an apex. The apex lies in one of the two spans, say left of the nail. Then the strip from
 * its start to the apex is a strip of its own, held along the chord at the apex, and it runs on through
 * the apex as the same elastica until the nail. Only how far it runs is unknown: from the right place
 * on it, a strip held there at its tangent and led to the far end bends there exactly as sharply.
 *
 * Everything is seen over the chord, from (0, 0) to (1, 0), and mirrored so that the apex is above it and
 * the nail to its right.
 */

/** The strip's end angles to the chord, radians; undefined where free. */
interface Held {
  readonly start: number | undefined;
  readonly end: number | undefined;
}

const turned = (angle: number | undefined, by: number): number | undefined =>
  angle === undefined ? undefined : angle - by;
const negative = (angle: number | undefined): number | undefined =>
  angle === undefined ? undefined : -angle;
const mirrorStations = (held: Held): Held => ({ start: negative(held.end), end: negative(held.start) });

/** Curvature and its rate at one end of a strip. */
interface Bent {
  readonly curvature: number;
  readonly rate: number;
}

const far = spanEnd();

/** The strip between two pins, bent as at its start and as at its end; undefined where none stands. */
function between(
  a: Point,
  b: Point,
  start: number | undefined,
  end: number | undefined,
): [Bent, Bent] | undefined {
  const [chord, tilt] = [distance(a, b), angleOf(a, b)];
  const pins = {
    stations: [0, 1],
    heights: [0, 0],
    start: turned(start, tilt),
    end: turned(end, tilt),
  };
  const { share, shape } = restingShape(pins);
  if (share < 1) return undefined;
  const at = spanAt(2, 0);
  const [curvature, rate] = [shape[at]!, shape[at + 1]!];
  runSpan(far, shape[0]!, curvature, rate, shape[at + 2]!);
  const inMeasure = (k: number, r: number): Bent => ({ curvature: k / chord, rate: r / chord ** 2 });
  return [inMeasure(curvature, rate), inMeasure(far.curvature, far.rate)];
}

/** Where nails may go for an apex above the chord, likely places first. */
function* nailsOver(apex: Point, held: Held): Generator<Point> {
  if (!(apex.x > 0 && apex.x < 1)) return;
  const left = between(point(0, 0), apex, held.start, 0)?.[1];
  const right = between(apex, point(1, 0), 0, held.end)?.[0];
  if (!left || !right || left.curvature >= 0 || right.curvature >= 0) return;
  if (left.curvature === right.curvature) yield apex;
  const sides = [
    function* onRight() {
      yield* nailsBeyond(apex, left, held.end);
    },
    function* onLeft() {
      const mirrored = { curvature: right.curvature, rate: -right.rate };
      const nails = nailsBeyond(point(1 - apex.x, apex.y), mirrored, mirrorStations(held).end);
      for (const { x, y } of nails) yield point(1 - x, y);
    },
  ];
  // A nail that lifts the strip stands on the side where the strip is bent sharper.
  if (left.curvature < right.curvature) sides.reverse();
  for (const side of sides) yield* side();
}

/** Places tried along the elastica beyond the apex before a root is closed in on. */
const PLACES = 24;

/** The nails to the right of the apex, on the elastica that leaves the apex bent as given. */
function* nailsBeyond(apex: Point, { curvature, rate }: Bent, end: number | undefined): Generator<Point> {
  const longest = 3 * (1 - apex.x + apex.y);
  const from = {
    type: 'elastica',
    from: apex,
    angle: 0,
    curvature,
    curvatureRate: rate,
    length: longest,
  } as const;
  const at = elasticaStates(from);
  /** How much less the elastica bends right here than a strip that is led on to the far end. */
  const mismatch = (s: number): number => {
    const { x, y, angle, curvature: here } = at(s);
    const beyond = between({ x, y }, point(1, 0), angle, end)?.[0];
    return beyond ? here - beyond.curvature : Number.NaN;
  };
  // It serves until it meets the chord, passes the far end, or turns up square to it.
  const { value: last } = roots((s) => {
    const { x, y, angle } = at(s);
    return Math.min(y, 1 - x, Math.PI / 2 - angle);
  }, longest).next();
  if (last === undefined) return;
  const only = rootBetween(mismatch, 0, last);
  if (only !== undefined) yield point(at(only).x, at(only).y);
  for (const root of roots(mismatch, last)) yield point(at(root).x, at(root).y);
}

/** The roots of f in (0, last] that PLACES tell apart. */
function* roots(f: (s: number) => number, last: number): Generator<number, undefined> {
  let [s, value] = [0, f(0)];
  for (let i = 1; i <= PLACES; i++) {
    const next = (last * i) / PLACES;
    const after = f(next);
    const root = value * after <= 0 ? rootBetween(f, s, next) : undefined;
    if (root !== undefined) yield root;
    [s, value] = [next, after];
  }
  return undefined;
}

/** The apex is where it was asked when this near, as a share of the chord: the batten's own accuracy. */
const APEX_DONE = 1e-9;

/** A run seen over its chord, and a test of any apex over it. */
class Run {
  readonly chord: number;
  readonly along: Point;
  readonly held: Held;

  constructor(
    readonly from: Point,
    readonly to: Point,
    readonly side: 1 | -1,
    readonly ends: StripEnds,
  ) {
    this.chord = distance(from, to);
    const tilt = angleOf(from, to);
    this.along = direction(tilt);
    const toChord = (end: StripEnds['start']): number | undefined => {
      if (end === 'free') return undefined;
      return side * Math.atan2(Math.sin(end.held - tilt), Math.cos(end.held - tilt));
    };
    this.held = { start: toChord(ends.start), end: toChord(ends.end) };
  }

  place({ x, y }: Point): Point {
    const out = scale(add(scale(this.along, x), scale(leftOf(this.along), this.side * y)), this.chord);
    return add(this.from, out);
  }

  /** The nail for an apex over the chord, if there is one and the strip over it stands. */
  nail(apex: Point): Point | undefined {
    for (const nail of nailsOver(apex, this.held)) {
      if (this.brings(this.place(nail), this.place(apex))) return this.place(nail);
    }
    return undefined;
  }

  /** Whether the strip over a nail has its apex there. */
  private brings(nail: Point, apex: Point): boolean {
    try {
      const { spans } = strip([this.from, nail, this.to], this.ends);
      const got = apexOf(spans, this.from, this.to)?.at;
      return got !== undefined && distance(got, apex) <= APEX_DONE * this.chord;
    } catch (fault) {
      if (fault instanceof Fault) return false;
      throw fault;
    }
  }
}

/**
 * Where to drive the one nail that puts the apex of the strip, the point farthest from its chord, at
 * `apex`: exact to 1e-9 of the chord, and checked by bending the strip over it.
 * @throws Fault `batten.no-such-apex` naming the nearest apex of that height, or `batten.too-high`
 */
export function nailForApex(from: Point, to: Point, apex: Point, ends: StripEnds): Point {
  const chord = distance(from, to);
  const along = direction(angleOf(from, to));
  const out = subtract(apex, from);
  const height = dot(out, leftOf(along));
  if (Math.abs(height) < JOIN_MM)
    throw new Fault(
      'batten.no-such-apex',
      'an apex on the chord leaves no curve. Give it an offset, or use a line.',
    );
  const run = new Run(from, to, height > 0 ? 1 : -1, ends);
  const asked = point(dot(out, along) / chord, Math.abs(height) / chord);
  const nail = run.nail(asked);
  if (nail) return nail;
  const nearest = nearestApex(run, asked);
  if (nearest === undefined) throw tooHigh(run, asked);
  throw new Fault(
    'batten.no-such-apex',
    (mm) =>
      `a strip with these ends cannot have an apex of that height at station ${mm(apex.x)}: ` +
      `the nearest it can do is ${mm(run.place(point(nearest, asked.y)).x)}. ` +
      'Move the apex there, hold or free the ends otherwise, or use a spline.',
  );
}

/** Stations tried for an apex of a height, and halvings after: the nearest is known to 1e-12 of the chord. */
const [STATIONS, HALVINGS] = [64, 34];

/** The station (share of the chord) nearest to the one asked where an apex of that height can be. */
function nearestApex(run: Run, { x, y }: Point): number | undefined {
  const can = (station: number): boolean => run.nail(point(station, y)) !== undefined;
  const stations = Array.from({ length: STATIONS - 1 }, (_, i) => (i + 1) / STATIONS);
  const first = stations.sort((a, b) => Math.abs(a - x) - Math.abs(b - x)).find(can);
  if (first === undefined) return undefined;
  let good = first;
  let bad = Math.abs(good - x) < 1 / STATIONS ? x : good + Math.sign(x - good) / STATIONS;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2;
    if (can(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** Stations and halvings to find the highest apex: a height that surely stands, to a millionth of the one asked. */
const [FEW_STATIONS, FEW_HALVINGS] = [16, 20];

function tooHigh(run: Run, { y }: Point): Fault {
  const stations = Array.from({ length: FEW_STATIONS - 1 }, (_, i) => (i + 1) / FEW_STATIONS);
  let [low, high] = [0, Math.min(y, HIGHEST)];
  for (let i = 0; i < FEW_HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (stations.some((x) => run.nail(point(x, middle)))) low = middle;
    else high = middle;
  }
  return new Fault(
    'batten.too-high',
    (mm) =>
      `no nail gives a strip with these ends an apex ${mm(y * run.chord)} off its chord` +
      (low > 0 ? `: it goes up to about ${mm(low * run.chord)}. ` : '. ') +
      'Lower the apex, hold or free the ends otherwise, or use an arc.',
  );
}

/** No strip over one nail has an apex higher than this, in chords. */
const HIGHEST = 2;
