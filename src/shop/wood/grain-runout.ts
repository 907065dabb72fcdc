import { type CurvePoint, paramCurve } from '../../curves/geometry/evaluate.ts';
import { minimizeAlong } from '../../curves/geometry/extrema.ts';
import { isShoulder, type Piece } from '../../curves/geometry/pieces/piece.ts';
import { type Point, toPoint } from '../../curves/geometry/point.ts';
import { minimizeOn } from '../../curves/numeric/roots-and-minima.ts';
import { edgesAsCut } from '../../part/outline/outline.ts';
import type { Part, PartEdge } from '../../part/part.ts';

export interface Runout {
  /** Between the edge and the grain, radians, 0 to π/2. */
  readonly angle: number;
  readonly edge: string;
  readonly at: Point;
}

/** Enough to tell apart the places of one piece that run most across the grain. */
const RUNOUT_SAMPLES = 48;

/** The angle between two lines without direction, 0 to π/2. */
const acuteAngle = (angle: number): number =>
  Math.atan2(Math.abs(Math.sin(angle)), Math.abs(Math.cos(angle)));

/** Without shoulders, which are meant to be end grain. */
const longGrainPieces = (edge: PartEdge): Piece[] => edge.pieces.filter((piece) => !isShoulder(piece));

/** As the job says, radians counterclockwise from the reference line. */
export const grainOnPart = ({ stock }: Pick<Part, 'stock'>): number => stock?.grain ?? 0;

/** The place on the edges that runs most across the grain, whose direction is in radians from the reference line. */
export function worstRunout(part: Part, grain: number): Runout {
  const runout = ({ angle }: CurvePoint): number => acuteAngle(angle - grain);
  const places = edgesAsCut(part).flatMap((edge) =>
    longGrainPieces(edge).map((piece): Runout => {
      const place = minimizeAlong(piece, (at) => -runout(at), RUNOUT_SAMPLES);
      return { angle: runout(place), edge: edge.name, at: toPoint(place) };
    }),
  );
  return places.reduce((worst, one) => (one.angle > worst.angle ? one : worst));
}

/** A pattern is turned by a protractor: half a degree is as near as it goes. */
const TURN_STEP = Math.PI / 360;

export function bestGrainDirection(part: Part): number {
  const pieces = edgesAsCut(part).flatMap(longGrainPieces);
  const steepest = (way: 1 | -1): number =>
    way * Math.max(...pieces.map((piece) => steepestAngle(piece, way)));
  return Math.round((steepest(1) + steepest(-1)) / 2 / TURN_STEP) * TURN_STEP;
}

/** The steepest angle of a piece with the reference line, up (way 1) or down (way −1), −π/2 to π/2. */
function steepestAngle(piece: Piece, way: number): number {
  const at = paramCurve(piece);
  const slope = (u: number): number => way * Math.atan(Math.tan(at(u).angle));
  return -minimizeOn((u) => -slope(u), RUNOUT_SAMPLES).value;
}

export interface ShareRange {
  readonly least: number;
  readonly most: number;
}

/** Published from 0.04 to 0.10, by wood and by author (Wood Handbook, chapter on mechanical properties; from memory). */
const STRENGTH_ACROSS_GRAIN: ShareRange = { least: 0.04, most: 0.1 };

/**
 * Hankinson: N = PQ/(P sin²θ + Q cos²θ), `slope` θ in radians; as Q/P is a range, 0.81 to 0.92 at 1 in 10. The
 * Handbook's own table of strength against slope of grain lies at the low end (from memory): that one is told.
 */
export function remainingStrength(slope: number): ShareRange {
  const left = (across: number): number => across / (Math.sin(slope) ** 2 + across * Math.cos(slope) ** 2);
  return { least: left(STRENGTH_ACROSS_GRAIN.least), most: left(STRENGTH_ACROSS_GRAIN.most) };
}
