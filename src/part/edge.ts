import { piecesLength } from '../curves/geometry/evaluate.ts';
import type { Point } from '../curves/geometry/point.ts';
import { firstOf, lastOf } from '../units/checked.ts';
import type { Part, PartEdge } from './part.ts';

type EdgeHead = Pick<PartEdge, 'name' | 'key' | 'woodIsAbove' | 'parallel'>;

export function makeEdge({ name, key, woodIsAbove, parallel }: EdgeHead, runs: PartEdge['runs']): PartEdge {
  const pieces = runs.flatMap(({ exact }) => exact);
  const path = runs.flatMap((run) => run.path);
  const length = runs.reduce((sum, run) => sum + piecesLength(run.exact), 0);
  return { name, key, ...(parallel && { parallel }), runs, pieces, path, length, woodIsAbove };
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

export const upperEdge = ([edge, other = edge]: Part['edges']): PartEdge => lowerFirst([edge, other])[1];

export function cornersOnFace(part: Pick<Part, 'edges' | 'ends'>, edge: PartEdge): readonly [Point, Point] {
  const { ends } = part;
  if (!ends) return [edgeStart(edge), edgeEnd(edge)];
  const which = edge === lowerEdge(part) ? 0 : 1;
  return [ends[0].face[which], ends[1].face[which]];
}
