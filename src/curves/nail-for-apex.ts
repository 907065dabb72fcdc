import { Fault } from '../units/fault.ts';
import { apexOf } from './figures.ts';
import { type Held, nailsOver } from './nails-over.ts';
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
import { type StripEnds, strip } from './strip.ts';
import { JOIN_MM } from './tolerance.ts';

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
