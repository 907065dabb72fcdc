import type { Piece, Segment } from '../curves/geometry/pieces/piece.ts';
import type { Point } from '../curves/geometry/point.ts';
import type { PartEdge } from './part.ts';

/** The exact pieces of an edge, from its start to its end. */
export const edgePieces = ({ runs }: Pick<PartEdge, 'runs'>): Piece[] => runs.flatMap(({ exact }) => exact);

/** The same as writers draw them. */
export const edgePath = ({ runs }: PartEdge): Segment[] => runs.flatMap(({ path }) => path);

export const edgeStart = ({ runs }: PartEdge): Point => runs[0]!.from;
export const edgeEnd = ({ runs }: PartEdge): Point => runs.at(-1)!.to;

/** The stations between which some edges lie, mm. */
export function stationRange(edges: readonly PartEdge[]): readonly [from: number, to: number] {
  const ends = edges.flatMap((edge) => [edgeStart(edge).x, edgeEnd(edge).x]);
  return [Math.min(...ends), Math.max(...ends)];
}
