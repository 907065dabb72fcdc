import { along } from '../../curves/geometry/evaluate.ts';
import { leastAlong } from '../../curves/geometry/extrema.ts';
import { isShoulder, type Piece } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { leastOnUnit } from '../../curves/numeric/roots-and-minima.ts';
import { edgePieces } from '../../part/edge.ts';
import { edgesAsCut } from '../../part/outline/outline.ts';
import type { Part, PartEdge } from '../../part/part.ts';

/** Where the grain runs out of an edge. */
export interface Runout {
  /** Between the edge and the grain, radians, 0 to π/2. */
  readonly angle: number;
  readonly edge: string;
  readonly at: Point;
}

/** Steps that tell apart the places of one piece that run most across the grain. */
const SAMPLES = 48;

/** The angle between two directions that have no head or tail, 0 to π/2. */
const acute = (angle: number): number => Math.atan2(Math.abs(Math.sin(angle)), Math.abs(Math.cos(angle)));

/** What the grain may run out of: a shoulder is end grain and meant to be, as the cut of an end is. */
const longGrain = (edge: PartEdge): Piece[] => edgePieces(edge).filter((piece) => !isShoulder(piece));

/**
 * The place on the edges of a part where they run most across the grain; end cuts and shoulders do not count.
 * @param grain the way of the grain, radians counter-clockwise from the reference line
 */
export function worstRunout(part: Part, grain: number): Runout {
  const places = edgesAsCut(part).flatMap((edge) =>
    longGrain(edge).map((piece): Runout => {
      const { x, y, angle } = leastAlong(piece, (place) => -acute(place.angle - grain), SAMPLES);
      return { angle: acute(angle - grain), edge: edge.name, at: point(x, y) };
    }),
  );
  return places.reduce((worst, one) => (one.angle > worst.angle ? one : worst));
}

/** A pattern is turned by a protractor: half a degree is as near as it goes. */
const TURN_STEP = Math.PI / 360;

/** The way of the grain that makes the worst runout least, to half a degree: half-way between the steepest edges. */
export function bestGrain(part: Part): number {
  const pieces = edgesAsCut(part).flatMap(longGrain);
  const [most, least] = [1, -1].map((way) => way * Math.max(...pieces.map((piece) => steepest(piece, way))));
  return Math.round((most! + least!) / 2 / TURN_STEP) * TURN_STEP;
}

/** The greatest angle of a piece with the reference line, the one way up or the other, −π/2 to π/2. */
function steepest(piece: Piece, way: number): number {
  const at = along(piece);
  const slope = (u: number): number => way * Math.atan(Math.tan(at(u).angle));
  return -leastOnUnit((u) => -slope(u), SAMPLES).value;
}
