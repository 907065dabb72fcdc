import { type Place, pointAt, segmentEnd, segmentStart } from '../curves/along.ts';
import { leastAlong } from '../curves/least-along.ts';
import { isShoulder, type Piece } from '../curves/piece.ts';
import { add, direction, leftOf, type Point, pointOf, scale, turnBetween } from '../curves/point.ts';
import { edgePieces } from '../part/edge.ts';
import { edgesAsCut } from '../part/outline.ts';
import type { Part } from '../part/part.ts';
import { isBelow } from '../part/wood-side.ts';

/** An edge as it is sawn, between the ends' cuts. */
export interface SawnEdge {
  readonly name: string;
  /** The finished line, exact, from left to right. */
  readonly pieces: readonly Piece[];
  /** On which side of it the part lies. */
  readonly wood: 'above' | 'below';
}

export const isStraight = ({ pieces }: SawnEdge): boolean =>
  pieces.length === 1 && pieces[0]!.type === 'line';

/** The edges of a part as they are sawn: of a closed part without what the ends cut off. */
export const sawnEdges = (part: Part): SawnEdge[] =>
  edgesAsCut(part).map((edge, i, all) => ({
    name: edge.name,
    pieces: edgePieces(edge),
    wood: (all.length === 1 ? isBelow(edge) : i === 0) ? 'above' : 'below',
  }));

/** A bend of the line to saw: hollow (concave) where the waste lies inside it, round (convex) where the part does. */
export interface Bend {
  readonly kind: 'hollow' | 'round';
  /** Of the line to saw itself, mm. */
  readonly radius: number;
  readonly at: Point;
  readonly edge: string;
}

/** Turning less than this is straight to a saw: 1 km of radius rises 0.1 mm on a metre. */
const STRAIGHT_MM = 1e6;

/**
 * The tightest bend of either sort on the line to saw, which runs `allowance` outside the finished one: there a
 * hollow is as much tighter and a round as much easier, as their parallels are.
 */
export function tightestBend(
  edges: readonly SawnEdge[],
  kind: Bend['kind'],
  allowance: number,
): Bend | undefined {
  const bends = edges.flatMap((edge) => edge.pieces.flatMap((piece) => bendOf(piece, edge, kind, allowance)));
  return bends.reduce<Bend | undefined>(
    (best, bend) => (best && best.radius <= bend.radius ? best : bend),
    undefined,
  );
}

function bendOf(piece: Piece, { name, wood }: SawnEdge, kind: Bend['kind'], allowance: number): Bend[] {
  const left = wood === 'above' ? 1 : -1;
  const way = kind === 'round' ? left : -left;
  // An arc is as tight everywhere: its middle stands for it.
  const place =
    piece.type === 'arc' ? pointAt(piece, 0.5) : leastAlong(piece, ({ curvature }) => -way * curvature);
  const curvature = way * place.curvature;
  if (curvature <= 1 / STRAIGHT_MM) return [];
  const radius = 1 / curvature + (kind === 'round' ? allowance : -allowance);
  return [{ kind, radius, at: outside(place, -left * allowance), edge: name }];
}

const outside = (place: Place, away: number): Point =>
  add(place, scale(leftOf(direction(place.angle)), away));

/** Where the line turns at once: an inside corner has the waste in it. */
export interface Corner {
  readonly kind: 'inside' | 'outside';
  readonly at: Point;
  /** Radians, over 0. */
  readonly turn: number;
  readonly edge: string;
  /** Whether one of the lines that meet in it is a shoulder. */
  readonly ofShoulder: boolean;
}

/**
 * A turn that a saw notices, radians: a 1/2 in blade has 0.3 mm of play in its kerf (what its charted radius comes
 * to), and swings 0.3/12.7 = 1.4° in it.
 */
const CORNER = (1.4 * Math.PI) / 180;

export const cornersOf = (edges: readonly SawnEdge[]): Corner[] =>
  edges.flatMap(({ name, pieces, wood }) =>
    pieces.slice(1).flatMap((piece, i): Corner[] => {
      const [before, after] = [segmentEnd(pieces[i]!), segmentStart(piece)];
      const turn = turnBetween(before.angle, after.angle);
      if (Math.abs(turn) <= CORNER) return [];
      const kind = turn > 0 === (wood === 'above') ? 'outside' : 'inside';
      const ofShoulder = isShoulder(pieces[i]!) || isShoulder(piece);
      return [{ kind, at: pointOf(after), turn: Math.abs(turn), edge: name, ofShoulder }];
    }),
  );
