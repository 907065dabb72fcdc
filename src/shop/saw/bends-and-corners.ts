import { type CurvePoint, evaluate, pieceEnd, pieceStart } from '../../curves/geometry/evaluate.ts';
import { minimizeAlong, positivePeaks } from '../../curves/geometry/extrema.ts';
import { isShoulder, type Piece } from '../../curves/geometry/pieces/piece.ts';
import { angleDifference, distance, type Point, toPoint } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { fromBaseLine } from '../../part/offsets.ts';
import type { PartEdge } from '../../part/part.ts';
import { neighbors } from '../../units/checked.ts';

/** The finished line of an edge between the cuts of the ends, from left to right. */
export type SawnEdge = Pick<PartEdge, 'name' | 'pieces' | 'woodIsAbove'>;

export const isStraight = ({ pieces }: SawnEdge): boolean =>
  pieces.length === 1 && pieces[0]?.type === 'line';

/** `hollow` (concave) has the waste inside it, `round` (convex) has the part inside it. */
export interface Bend {
  readonly kind: 'hollow' | 'round';
  /** Of the saw line itself, mm. */
  readonly radius: number;
  readonly at: Point;
  readonly edge: string;
}

/** A larger radius is straight to a saw: 1 km rises 0.1 mm on a meter. */
const STRAIGHT_RADIUS_MM = 1e6;

/** Far less than a blade feels: a radius of 1 m counts as equal within 1 mm. */
const EQUAL_CURVATURE_SHARE = 1e-3;

/** From left to right, on the saw line `allowance` outside: there a hollow is tighter, a round easier. */
export function tightestBends(edges: readonly SawnEdge[], kind: Bend['kind'], allowance: number): Bend[] {
  const lines = edges.map((edge) => ({ edge, side: edge.woodIsAbove ? 1 : -1 }));
  const way = (side: number): number => (kind === 'round' ? side : -side);
  const curvatures = lines.flatMap(({ edge, side }) =>
    edge.pieces.map((piece) => way(side) * tightestPlace(piece, way(side)).curvature),
  );
  const most = Math.max(0, ...curvatures);
  if (most <= 1 / STRAIGHT_RADIUS_MM) return [];
  return lines.flatMap(({ edge, side }) =>
    tightPlaces(edge.pieces, way(side), most * (1 - EQUAL_CURVATURE_SHARE)).map((place) => ({
      kind,
      radius: 1 / Math.abs(place.curvature) + (kind === 'round' ? allowance : -allowance),
      at: fromBaseLine({ x: 0, y: -side * allowance }, { origin: place, angle: place.angle }),
      edge: edge.name,
    })),
  );
}

/** An arc is as tight everywhere: its middle stands for it. */
const tightestPlace = (piece: Piece, way: number): CurvePoint =>
  piece.type === 'arc' ? evaluate(piece, 0.5) : minimizeAlong(piece, ({ curvature }) => -way * curvature);

/** The tightest place of each stretch bent by a curvature or more. Two pieces that meet there give one place. */
function tightPlaces(pieces: readonly Piece[], way: number, least: number): CurvePoint[] {
  const places = pieces.flatMap((piece) =>
    piece.type === 'arc'
      ? [tightestPlace(piece, way)].filter(({ curvature }) => way * curvature >= least)
      : positivePeaks(piece, ({ curvature }) => (way * curvature) / least - 1),
  );
  return places.filter((place, i) => {
    const before = places[i - 1];
    return !before || distance(place, before) > JOIN_MM;
  });
}

/** An `inside` corner has the waste in it. */
export interface LineCorner {
  readonly kind: 'inside' | 'outside';
  readonly at: Point;
  readonly turn: number;
  readonly edge: string;
  readonly ofShoulder: boolean;
}

/** A 1/2 in blade has 0.3 mm of play in its kerf, by its charted radius, so it swings 0.3/12.7 = 1.4°. */
const MIN_CORNER_TURN = (1.4 * Math.PI) / 180;

/** Corners where two pieces of an edge meet. */
export const cornersOf = (edges: readonly SawnEdge[]): LineCorner[] =>
  edges.flatMap(({ name, pieces, woodIsAbove }) =>
    neighbors(pieces).flatMap(([piece, next]): LineCorner[] => {
      const [before, after] = [pieceEnd(piece), pieceStart(next)];
      const turn = angleDifference(before.angle, after.angle);
      if (Math.abs(turn) <= MIN_CORNER_TURN) return [];
      const kind = turn > 0 === woodIsAbove ? 'outside' : 'inside';
      const ofShoulder = isShoulder(piece) || isShoulder(next);
      return [{ kind, at: toPoint(after), turn: Math.abs(turn), edge: name, ofShoulder }];
    }),
  );
