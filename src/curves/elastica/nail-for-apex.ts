import { Fault } from '../../units/fault.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import type { ElasticaSegment } from '../geometry/pieces/piece.ts';
import { add, angleDifference, distance, type Point, point, scale } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { apexOf } from '../measurements.ts';
import { undefinedOnFault } from '../try-curve.ts';
import { candidateNails, type HeldAngles } from './apex-inverse.ts';
import { riseLimit } from './rise-limit.ts';
import { type StripEnds, trySolveStrip } from './solve-strip.ts';

/** How near the apex must be to the one asked for, as a share of the chord: the batten's own accuracy. */
const APEX_TOLERANCE = 1e-9;

export interface NailSolution {
  readonly nail: Point;
  readonly spans: readonly ElasticaSegment[];
}

/** The search seen in shares of the chord, mirrored where the apex lies to its right. */
class ApexProblem {
  readonly held: HeldAngles;

  constructor(
    readonly frame: ChordFrame,
    readonly to: Point,
    readonly side: 1 | -1,
    readonly ends: StripEnds,
  ) {
    const toChord = (end: StripEnds['start']): number | undefined =>
      end === 'free' ? undefined : side * angleDifference(frame.angle, end.held);
    this.held = { start: toChord(ends.start), end: toChord(ends.end) };
  }

  toWorld({ x, y }: Point): Point {
    const { from, along, normal, length } = this.frame;
    return add(from, scale(add(scale(along, x), scale(normal, this.side * y)), length));
  }

  findNail(apex: Point): NailSolution | undefined {
    for (const over of candidateNails(apex, this.held)) {
      const nail = this.toWorld(over);
      const spans = this.solveOver(nail, this.toWorld(apex));
      if (spans) return { nail, spans };
    }
    return undefined;
  }

  private solveOver(nail: Point, apex: Point): NailSolution['spans'] | undefined {
    const { from, length } = this.frame;
    const spans = undefinedOnFault(() => trySolveStrip([from, nail, this.to], this.ends));
    if (!spans || typeof spans === 'function') return undefined;
    const got = apexOf(spans, from, this.to)?.at;
    return got && distance(got, apex) <= APEX_TOLERANCE * length ? spans : undefined;
  }
}

/** To 1e-9 of the chord. @throws Fault `batten.no-such-apex` with the nearest of that height, `batten.too-high` */
export function nailForApex(from: Point, to: Point, apex: Point, ends: StripEnds): NailSolution {
  const frame = new ChordFrame(from, to);
  const height = frame.height(apex);
  const onChord = 'an apex on the chord gives no curve. Move it off the chord, or use a line.';
  if (Math.abs(height) < JOIN_MM) throw new Fault('batten.no-such-apex', onChord);
  const run = new ApexProblem(frame, to, height > 0 ? 1 : -1, ends);
  const asked = point(frame.station(apex) / frame.length, Math.abs(height) / frame.length);
  const nailed = run.findNail(asked);
  if (nailed) return nailed;
  const highest = highestApex(run);
  const nearest = asked.y < RISE_MARGIN * highest ? nearestFeasibleApex(run, asked) : undefined;
  if (nearest === undefined) throw noNailFault(run, asked, highest);
  throw new Fault(
    'batten.no-such-apex',
    (mm) =>
      `a batten with these ends cannot have its apex at station ${mm(apex.x)}, offset ${mm(apex.y)}. ` +
      `The nearest possible apex is at station ${mm(nearest.x)}, offset ${mm(nearest.y)}. ` +
      'Move the apex there, change the ends, or use a spline.',
  );
}

/** Stations tried for an apex of a height, and bisections after: a part in 32,000 of the chord. */
const [STATIONS, HALVINGS] = [32, 10];
/** A suggested apex is rounded to a rule before it is typed, mm: both coordinates by half of 1/16 in at most. */
const MAX_ROUNDING_MM = 0.8 * Math.SQRT2;

/** The nearest apex of that height that is possible, however it is rounded. */
function nearestFeasibleApex(run: ApexProblem, { x, y }: Point): Point | undefined {
  const rounding = MAX_ROUNDING_MM / run.frame.length;
  const ways = [-rounding, rounding];
  const rounded = ways.flatMap((dx) => ways.map((dy) => ({ dx, apexY: Math.max(y + dy, y / 2) })));
  const can = (station: number): boolean =>
    rounded.every(({ dx, apexY }) => run.findNail(point(station + dx, apexY)) !== undefined);
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
  return run.toWorld(point(good, y));
}

/** Nail stations tried for the highest apex; the middle is one of them, where equal ends have it. */
const NAIL_STATIONS = 16;
/** Between those stations the highest apex may be this much higher (3% in trials). */
const RISE_MARGIN = 1.05;
/** Just below its limit a strip is surely stable. */
const BELOW_LIMIT = 1 - 1e-6;

/** A height of apex, in chords, that is surely possible, over nails at some stations. */
function highestApex(run: ApexProblem): number {
  const { frame, to, ends, held } = run;
  let highest = 0;
  for (let i = 1; i < NAIL_STATIONS; i++) {
    const limit = riseLimit(i / NAIL_STATIONS, held.start, held.end);
    if (limit === undefined) continue;
    const nail = run.toWorld(point(i / NAIL_STATIONS, limit * BELOW_LIMIT));
    const spans = trySolveStrip([frame.from, nail, to], ends);
    if (typeof spans === 'function') continue;
    highest = Math.max(highest, (apexOf(spans, frame.from, to)?.rise ?? 0) / frame.length);
  }
  return highest;
}

function noNailFault(run: ApexProblem, { y }: Point, most: number): Fault {
  const tooHigh = most < y;
  return new Fault(
    tooHigh ? 'batten.too-high' : 'batten.no-such-apex',
    (mm) =>
      `a batten with these ends cannot have an apex ${mm(y * run.frame.length)} off its chord. ` +
      (tooHigh && most > 0 ? `It can go up to about ${mm(most * run.frame.length)}. ` : '') +
      `${tooHigh ? 'Lower the apex, change' : 'Change'} the ends, or use an arc.`,
  );
}
