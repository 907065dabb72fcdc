import type { Curve } from '../curves/curve.ts';
import { piecesLength } from '../curves/geometry/evaluate.ts';
import type { Point } from '../curves/geometry/point.ts';
import { firstOf, lastOf } from '../units/checked.ts';
import type { Part, PartEdge, PartRun } from './part.ts';

/** Gathers what runs have in common. */
export function makeEdge(
  { name, key, woodIsAbove }: Pick<PartEdge, 'name' | 'key' | 'woodIsAbove'>,
  runs: readonly (Curve | PartRun)[],
): PartEdge {
  return {
    name,
    key,
    runs,
    pieces: runs.flatMap(({ exact }) => exact),
    path: runs.flatMap(({ path }) => path),
    length: runs.reduce((sum, run) => sum + piecesLength(run.exact), 0),
    woodIsAbove,
  };
}

export const edgeStart = ({ runs }: Pick<PartEdge, 'runs'>): Point => firstOf(runs).from;
export const edgeEnd = ({ runs }: Pick<PartEdge, 'runs'>): Point => lastOf(runs).to;

export function stationRange(edges: readonly PartEdge[]): readonly [from: number, to: number] {
  const ends = edges.flatMap((edge) => [edgeStart(edge).x, edgeEnd(edge).x]);
  return [Math.min(...ends), Math.max(...ends)];
}

export const lowerFirst = ([a, b]: readonly [PartEdge, PartEdge]): readonly [PartEdge, PartEdge] =>
  a.woodIsAbove ? [a, b] : [b, a];

export function lowerEdge({ edges }: Pick<Part, 'edges'>): PartEdge {
  const [edge, other] = edges;
  return other ? lowerFirst([edge, other])[0] : edge;
}

export function cornersOnFace(
  part: Pick<Part, 'edges' | 'ends'>,
  edge: PartEdge,
): readonly [from: Point, to: Point] {
  const { ends } = part;
  if (!ends) return [edgeStart(edge), edgeEnd(edge)];
  const which = edge === lowerEdge(part) ? 0 : 1;
  return [ends[0].face[which], ends[1].face[which]];
}
