import { pathEnds } from '../curves/geometry/evaluate.ts';
import type { Segment } from '../curves/geometry/pieces/piece.ts';
import { angleFrom, direction, distance, point } from '../curves/geometry/point.ts';
import { transformPath } from '../curves/geometry/transform.ts';
import { apexOf } from '../curves/measurements.ts';
import { sharpen } from '../curves/offset/overbend.ts';
import type { BaseLine } from '../part/offsets.ts';
import type { Part, PartEdge } from '../part/part.ts';
import { itemAt } from '../units/checked.ts';
import { graduationMm } from '../units/graduation.ts';
import { fitRigid, type Misfit, type RigidFit, sumOfSquares } from './fit/rigid-fit.ts';
import type { StationReading } from './readings/read-readings.ts';
import { readingSigma } from './readings/reading-error.ts';
import { MIN_ALIGNMENT_READINGS } from './suspect-readings.ts';

/** How far a bent part has opened, or closed: elastic springback takes the same share of the bend everywhere. */
export interface Opening {
  /** Of the curvature of the edge, 1 where nothing has opened. */
  readonly bend: number;
  /** Of the part as measured, over its own chord, and as it should be, mm. */
  readonly rise: number;
  readonly askedRise: number;
  /** How much the readings still differ. */
  readonly left: Misfit;
}

/** A bend that has changed by more is not the part of this job. */
const MAX_CHANGE = 0.5;
/** A difference for a slope: far over rounding, far under what bends a part visibly. */
const STEP = 1e-3;
const MAX_STEPS = 12;
const CONVERGED = 1e-6;

/**
 * The share of the bend that fits the readings best, wherever along the rule and however crooked the part was held.
 * Undefined where the readings are too few, or no opened curve fits them.
 */
export function openedCurve(
  part: Pick<Part, 'rule'>,
  edge: PartEdge,
  readings: readonly StationReading[],
  base: BaseLine,
): Opening | undefined {
  if (readings.length < MIN_ALIGNMENT_READINGS) return undefined;
  const found = HELD_AT.flatMap((held) => bestBend(edge, readings, base, held) ?? []);
  const [best] = found.toSorted((a, b) => a.fit.rms - b.fit.rms);
  if (!best) return undefined;
  const limit = Math.max(graduationMm(part.rule), MAX_LEFT_SIGMAS * readingSigma(part.rule));
  if (best.fit.worst > limit) return undefined;
  const { bend, fit } = best;
  const left = { worst: fit.worst, rms: fit.rms };
  return { bend, rise: riseOf(bentEdge(edge, bend, 0)), askedRise: riseOf(bentEdge(edge, 1, 0)), left };
}

/** A few readings of a part that opened evenly differ from the best curve by no more. */
const MAX_LEFT_SIGMAS = 3;

/** Opening makes the chord longer; the part was laid with this share of its chord where it should be. */
const HELD_AT = [0, 0.5, 1] as const;

function bestBend(edge: PartEdge, readings: readonly StationReading[], base: BaseLine, held: number) {
  const fitAt = (bend: number): RigidFit => fitRigid(bentEdge(edge, bend, held), readings, base);
  let bend = 1;
  let fit = fitAt(bend);
  for (let i = 0; i < MAX_STEPS; i++) {
    const beside = fitAt(bend + STEP).residuals;
    const slopes = fit.residuals.map((off, k) => (itemAt(beside, k) - off) / STEP);
    const along = slopes.reduce((sum, slope, k) => sum + slope * itemAt(fit.residuals, k), 0);
    const step = -along / sumOfSquares(slopes);
    if (!Number.isFinite(step) || Math.abs(bend + step - 1) > MAX_CHANGE) return undefined;
    const next = fitAt(bend + step);
    if (next.rms >= fit.rms) break;
    [bend, fit] = [bend + step, next];
    if (Math.abs(step) < CONVERGED) break;
  }
  return { bend, fit };
}

/** The edge with so much of its bend, its chord along the one that it should have. */
function bentEdge({ pieces }: PartEdge, bend: number, held: number): Segment[] {
  const path = sharpen(pieces, bend).flat();
  const [start, end] = pathEnds(path);
  const [from, to] = pathEnds(pieces);
  const angle = angleFrom(from, to);
  const { x: cos, y: sin } = direction(angle - angleFrom(start, end));
  const slip = held * (distance(from, to) - distance(start, end));
  const way = direction(angle);
  const origin = point(from.x + slip * way.x, from.y + slip * way.y);
  return transformPath(path, [
    cos,
    sin,
    -sin,
    cos,
    origin.x - cos * start.x + sin * start.y,
    origin.y - sin * start.x - cos * start.y,
  ]);
}

function riseOf(path: readonly Segment[]): number {
  const [start, end] = pathEnds(path);
  return apexOf(path, start, end)?.rise ?? 0;
}
