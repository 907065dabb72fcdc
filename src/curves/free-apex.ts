import { Fault } from '../units/fault.ts';
import { freeRiseLimit } from './free-batten.ts';
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

/*
 * Where to nail a free strip so that its apex falls where it is asked. At the apex the strip runs along
 * the chord, so that the stretch from the farther end A to the apex is known at once: it turns by p with
 * f(p) = the direction of the apex from A. The nail N lies farther along the same elastica, at a turn
 * a > p, and the stretch N–B has to fit: f(b) = tangent at N against NB, g(b) = curvature at N · |NB|.
 * That is one equation for a, whose left side falls from above 0 at a = p to below 0 where b vanishes.
 */

/** Steps in which the turn at the nail is walked to find the first strip that fits. */
const WALK_STEPS = 64;

/**
 * Where to drive the nail of a strip with free ends so that its apex (the point farthest from the
 * chord) falls at `apex`. Exact to 1e-9 of the chord, but for an apex within 1e-6 of its farthest reach.
 * @throws Fault `batten.no-such-apex` naming the nearest that can be had, `batten.too-high`
 */
export function nailForApex(from: Point, to: Point, apex: Point): Point {
  const chord = distance(from, to);
  const along = direction(angleOf(from, to));
  const out = subtract(apex, from);
  const [station, height] = [dot(out, along) / chord, dot(out, leftOf(along)) / chord];
  mustBeBent(Math.abs(height), chord);
  // Measured from the end farther from the apex, and above the chord: the rest is mirrored.
  const mirrored = station < 1 / 2;
  const far = mirrored ? 1 - station : station;
  const nail = standingNail(far, Math.abs(height));
  const across = (share: number): Point => between(from, to, mirrored ? 1 - share : share);
  if (nail) return add(across(nail.x), scale(leftOf(along), Math.sign(height) * nail.y * chord));
  const nearest = across(farthestApex(far, Math.abs(height)));
  throw new Fault(
    'batten.no-such-apex',
    (mm) =>
      `a strip with free ends cannot have its apex at station ${mm(apex.x)}: at that rise the nearest it can do is ` +
      `${mm(nearest.x + (apex.x - across(far).x))}. Move the apex there, or use a spline.`,
  );
}

function mustBeBent(rise: number, chord: number): void {
  if (rise === 0)
    throw new Fault(
      'batten.no-such-apex',
      'an apex on the chord leaves no curve. Give it an offset, or use a line.',
    );
  if (rise >= GAUSS_CONSTANT)
    throw new Fault(
      'batten.too-high',
      (mm) =>
        `a strip with free ends over one nail rises ${mm(GAUSS_CONSTANT * chord)} at most on this chord, ` +
        `not ${mm(rise * chord)}. Lower the apex, or use an arc.`,
    );
}

/** Halvings towards the farthest apex that can be had: 40 leave 1e-12 of the chord. */
const REACH_STEPS = 40;

/** The apex nearest to an impossible one at the same rise, from the end farther from it: 1/2 can always be had. */
function farthestApex(station: number, height: number): number {
  let [possible, impossible] = [1 / 2, station];
  for (let i = 0; i < REACH_STEPS; i++) {
    const middle = (possible + impossible) / 2;
    if (standingNail(middle, height)) possible = middle;
    else impossible = middle;
  }
  return possible;
}

/** The nail over a chord of 1, for an apex at 1/2 ≤ station; undefined where no strip stands so. */
function standingNail(station: number, height: number): Point | undefined {
  if (station >= 1) return undefined;
  const nail = nailOverUnitChord(station, height);
  return nail && nail.x > 0 && nail.x < 1 && nail.y > 0 && nail.y < freeRiseLimit(nail.x) ? nail : undefined;
}

function nailOverUnitChord(station: number, height: number): Point | undefined {
  const reach = Math.hypot(station, height);
  const toApex = rootBetween((a) => nailAngle(a) - Math.atan2(height, station), 0, Math.PI)!;
  const force = bend(toApex) ** 2 / (reach ** 2 * 2 * Math.sin(toApex));
  const curvatureAt = (a: number): number => Math.sqrt(2 * force * Math.sin(a));
  const nailAt = (a: number): Point => {
    const span = bend(a) / curvatureAt(a);
    const angle = toApex - endAngle(a);
    return { x: span * Math.cos(angle), y: span * Math.sin(angle) };
  };
  /** The tangent at the nail against the straight line to B: f(b). */
  const opening = (a: number): number => toApex - a - angleOf(nailAt(a), { x: 1, y: 0 });
  const misfit = (a: number): number => {
    const turn = rootBetween((b) => nailAngle(b) - opening(a), 0, Math.PI) ?? 0;
    return bend(turn) - curvatureAt(a) * distance(nailAt(a), { x: 1, y: 0 });
  };
  // The first place counts: farther along, the equation also knows strips that do not stay.
  const turn = Math.abs(misfit(toApex)) < MIDDLE_MISFIT ? toApex : whereNegative(misfit, toApex, Math.PI);
  return turn === undefined ? undefined : nailAt(turn);
}

/** Rounding of the misfit, which is exactly 0 for an apex in the middle, where the nail stands in it. */
const MIDDLE_MISFIT = 1e-14;

/** The first place, walking from a to b, where f has fallen to 0. */
function whereNegative(f: (x: number) => number, a: number, b: number): number | undefined {
  for (let i = 1; i <= WALK_STEPS; i++) {
    const [before, here] = [a + ((b - a) * (i - 1)) / WALK_STEPS, a + ((b - a) * i) / WALK_STEPS];
    if (f(here) < 0) return rootBetween(f, before, here);
  }
  return undefined;
}
