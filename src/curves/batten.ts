import { Fault } from '../units/fault.ts';
import type { Curve } from './curve.ts';
import { apexOf } from './figures.ts';
import { freeBatten } from './free-batten.ts';
import { curveOf, mustDiffer } from './line.ts';
import { bend, endAngle, GAUSS_CONSTANT, nailAngle } from './lobe.ts';
import {
  add,
  angleOf,
  between,
  direction,
  distance,
  dot,
  leftOf,
  type Point,
  scale,
  subtract,
} from './point.ts';
import { rootBetween } from './search.ts';

/** What bends the strip between its ends: a nail it touches, or the apex it shall have. */
export type BattenBy = { readonly nail: Point } | { readonly apex: Point };

/**
 * The curve of a uniform springy strip (a batten) sprung over a pin at each end and one nail between:
 * the shape of least bending energy with the strip free to slide, every pin without friction.
 *
 * By `nail` the strip touches that point; its apex is elsewhere, in the longer span, unless the nail
 * stands in the middle. By `apex` the nail is sought that puts the apex (the point farthest from the
 * chord) where it is asked. Exact to 1e-9 of the chord or better.
 * @throws Fault `curve.same-point`, `curve.not-finite`, `batten.out-of-order`, `batten.too-high`,
 *   `batten.no-such-apex`, `batten.not-found`
 */
export function batten(from: Point, to: Point, by: BattenBy): Curve {
  const bent = 'nail' in by ? by.nail : by.apex;
  mustDiffer(from, to, 'the two ends of the batten');
  mustDiffer(from, bent, 'the start of the batten and the point between');
  mustDiffer(bent, to, 'the point between and the end of the batten');
  const nail = 'nail' in by ? by.nail : nailForApex(from, to, by.apex);
  return curveOf('batten', freeBatten(from, nail, to), { from, to }, [from, nail, to]);
}

/** Station along and height over a chord. */
interface OverChord {
  readonly station: number;
  readonly height: number;
}

const overChord = (from: Point, to: Point, p: Point): OverChord => {
  const along = direction(angleOf(from, to));
  const out = subtract(p, from);
  return { station: dot(out, along), height: dot(out, leftOf(along)) };
};

/** Newton steps for the nail; from the shallow start it takes 3 to 8. */
const MAX_STEPS = 30;
/** The apex is where it was asked when this near, as a share of the chord: the batten's own accuracy. */
const APEX_DONE = 1e-11;
/** Step of the difference quotients, as a share of the chord: half the digits of a double. */
const PROBE = 1e-6;

/**
 * Where to drive the nail so that the apex of the free strip falls at `apex`.
 * Newton's method on the nail's two coordinates, from the shallow strip's answer.
 * @throws Fault `batten.no-such-apex` naming the nearest apex, `batten.too-high`
 */
export function nailForApex(from: Point, to: Point, apex: Point): Point {
  const chord = distance(from, to);
  const asked = overChord(from, to, apex);
  mustHaveApex(from, to, asked, chord);
  const along = direction(angleOf(from, to));
  const place = ({ station, height }: OverChord): Point =>
    add(from, add(scale(along, station), scale(leftOf(along), height)));
  const off = (nail: OverChord): OverChord => {
    const got = overChord(from, to, apexOf(freeBatten(from, place(nail), to), from, to)!.at);
    return { station: got.station - asked.station, height: got.height - asked.height };
  };
  let nail = shallowNail(asked, chord);
  for (let i = 0; i < MAX_STEPS; i++) {
    const now = off(nail);
    if (Math.hypot(now.station, now.height) <= APEX_DONE * chord) return place(nail);
    nail = newtonStep(off, nail, now, chord);
  }
  throw new Fault(
    'batten.not-found',
    (mm) => `no nail was found for an apex at station ${mm(apex.x)}. Move the apex towards the middle.`,
  );
}

function newtonStep(
  off: (nail: OverChord) => OverChord,
  nail: OverChord,
  now: OverChord,
  chord: number,
): OverChord {
  const h = PROBE * chord;
  const byStation = off({ ...nail, station: nail.station + h });
  const byHeight = off({ ...nail, height: nail.height + h });
  const [a, b] = [(byStation.station - now.station) / h, (byHeight.station - now.station) / h];
  const [c, d] = [(byStation.height - now.height) / h, (byHeight.height - now.height) / h];
  const determinant = a * d - b * c;
  const station = nail.station - (d * now.station - b * now.height) / determinant;
  const height = nail.height - (a * now.height - c * now.station) / determinant;
  // Never past half the way to an end, nor to more than half as high again, in one step.
  return {
    station: Math.min(Math.max(station, nail.station / 2), (nail.station + chord) / 2),
    height:
      Math.sign(nail.height) * Math.min(Math.max(height / nail.height, 0.5), 1.5) * Math.abs(nail.height),
  };
}

/** The nail of a shallow strip (a simply supported beam with a point load) for an apex: the start. */
function shallowNail(asked: OverChord, chord: number): OverChord {
  const far = Math.max(asked.station, chord - asked.station);
  const short = Math.sqrt(Math.max(chord ** 2 - 3 * far ** 2, (NEAREST_NAIL * chord) ** 2));
  const long = chord - short;
  const apexOverNail = (far * (chord ** 2 - short ** 2 - far ** 2)) / (2 * long ** 2 * short);
  return {
    station: asked.station >= chord / 2 ? long : short,
    height: asked.height / apexOverNail,
  };
}

/** The search starts no nearer to an end than this share of the chord, where the apex stops moving. */
const NEAREST_NAIL = 0.02;

/**
 * The apex farthest from the middle that a free strip of a given rise can have: with the nail driven
 * hard by one end, so that the strip is one lobe from end to end. A share of the chord, over 1/2;
 * 1/√3 for the shallow strip, 1/2 at the highest rise.
 */
export function apexReach(risePerChord: number): number {
  const apex = (turn: number): OverChord => {
    const force = bend(turn) ** 2 / (2 * Math.sin(turn));
    const upTo = endAngle(turn);
    const reach = bend(upTo) / Math.sqrt(2 * force * Math.sin(upTo));
    return { station: reach * Math.cos(nailAngle(upTo)), height: reach * Math.sin(nailAngle(upTo)) };
  };
  const turn = rootBetween((u) => apex(u).height - risePerChord, FLATTEST_TURN, Math.PI - FLATTEST_TURN);
  return turn === undefined ? 1 / Math.sqrt(3) : apex(turn).station;
}

/** Below this turn, radians, the shallow limit is exact to more than a double holds of a station. */
const FLATTEST_TURN = 1e-7;

function mustHaveApex(from: Point, to: Point, asked: OverChord, chord: number): void {
  const rise = Math.abs(asked.height) / chord;
  if (rise >= GAUSS_CONSTANT)
    throw new Fault(
      'batten.too-high',
      (mm) =>
        `a strip with free ends over one nail rises ${mm(GAUSS_CONSTANT * chord)} at most on this chord, ` +
        `not ${mm(rise * chord)}. Lower the apex, or use an arc.`,
    );
  const reach = apexReach(rise);
  const nearest = Math.min(Math.max(asked.station / chord, 1 - reach), reach);
  if (nearest === asked.station / chord && asked.height !== 0) return;
  const at = between(from, to, nearest);
  throw new Fault(
    'batten.no-such-apex',
    asked.height === 0
      ? 'an apex on the chord leaves no curve. Give it an offset, or use a line.'
      : (mm) =>
          `a strip with free ends cannot have its apex at station ${mm(from.x + (to.x - from.x) * (asked.station / chord))}: ` +
          `the nearest it can do is ${mm(at.x)}. Move the apex there, or use a spline.`,
  );
}
