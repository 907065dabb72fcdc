import type { Piece, Segment } from '../curves/piece.ts';
import { distance, type Point } from '../curves/point.ts';
import { reversePath, reversePiece } from '../curves/segment.ts';
import { JOIN_MM } from '../curves/tolerance.ts';
import { Fault } from '../units/fault.ts';
import { Chain } from './chain.ts';
import { offsetAt } from './offsets.ts';
import type { PartEdge, Shape } from './part.ts';
import { crossing, narrowest } from './width.ts';

const edgePieces = (edge: PartEdge): Piece[] => edge.runs.flatMap((run) => run.exact);
const edgePath = (edge: PartEdge): Segment[] => edge.runs.flatMap((run) => run.path);
export const edgeStart = (edge: PartEdge): Point => edge.runs[0]!.from;
export const edgeEnd = (edge: PartEdge): Point => edge.runs.at(-1)!.to;

/** One edge as a line pattern with its chord. */
export const lineShape = (edge: PartEdge): Shape => ({
  type: 'line',
  line: edgePath(edge),
  chord: [edgeStart(edge), edgeEnd(edge)],
});

/**
 * Two edges as a closed part with square ends, counter-clockwise from the lower left corner.
 * @throws Fault `part.ends-not-square` where the edges' ends do not stand at one station,
 *   `part.edges-cross`
 */
export function closedShape(edges: readonly [PartEdge, PartEdge]): Shape {
  const [lower, upper] = inOrder(edges);
  mustEndSquare(lower, upper);
  const chains = [new Chain(edgePieces(lower)), new Chain(edgePieces(upper))] as const;
  mustKeepApart(lower, upper, crossing(...chains));
  const rightEnd = endLine(edgeEnd(lower), edgeEnd(upper));
  const leftEnd = endLine(edgeStart(upper), edgeStart(lower));
  return {
    type: 'closed',
    outline: [...edgePath(lower), ...rightEnd, ...reversePath(edgePath(upper)), ...leftEnd],
    leastWidth: narrowest(...chains),
  };
}

/** The edge nearer the reference line first, judged half-way along. */
function inOrder([a, b]: readonly [PartEdge, PartEdge]): readonly [PartEdge, PartEdge] {
  const middle = (edgeStart(a).x + edgeEnd(a).x) / 2;
  const height = (edge: PartEdge): number =>
    offsetAt(edge, middle) ?? (edgeStart(edge).y + edgeEnd(edge).y) / 2;
  return height(a) <= height(b) ? [a, b] : [b, a];
}

/** Square across the part; none where the edges meet in a point. */
const endLine = (from: Point, to: Point): Segment[] =>
  distance(from, to) < JOIN_MM ? [] : [{ type: 'line', from, to }];

function mustEndSquare(lower: PartEdge, upper: PartEdge): void {
  const ends = [
    ['left', edgeStart(lower), edgeStart(upper)],
    ['right', edgeEnd(lower), edgeEnd(upper)],
  ] as const;
  for (const [side, a, b] of ends)
    if (Math.abs(a.x - b.x) > JOIN_MM)
      throw new Fault(
        'part.ends-not-square',
        (mm) =>
          `at the ${side} end "${lower.name}" stands at station ${mm(a.x)} and "${upper.name}" at ${mm(b.x)}: ` +
          'that end is not square. Give both edges the same station there.',
        `edges.${upper.name}`,
      );
}

function mustKeepApart(lower: PartEdge, upper: PartEdge, at: Point | undefined): void {
  if (at)
    throw new Fault(
      'part.edges-cross',
      (mm) =>
        `the edges "${lower.name}" and "${upper.name}" cross at station ${mm(at.x)}. ` +
        'Move one so that wood is left between them.',
      `edges.${upper.name}`,
    );
}

/** The pieces of the finished line as they are exactly, in the order of the outline, for its parallel. */
export function exactOutline(edges: readonly PartEdge[]): { pieces: Piece[]; closed: boolean } {
  if (edges.length === 1) return { pieces: edgePieces(edges[0]!), closed: false };
  const [lower, upper] = inOrder(edges as readonly [PartEdge, PartEdge]);
  const back = upper.runs.flatMap((run) => run.exact).reverse();
  return {
    pieces: [
      ...edgePieces(lower),
      ...endLine(edgeEnd(lower), edgeEnd(upper)),
      ...back.map(reversePiece),
      ...endLine(edgeStart(upper), edgeStart(lower)),
    ],
    closed: true,
  };
}
