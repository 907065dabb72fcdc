import { pieceStart } from '../../curves/geometry/evaluate.ts';
import { isShoulder } from '../../curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../curves/geometry/point.ts';
import type { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { Job } from '../../job/job.ts';
import { Fault } from '../../units/fault.ts';
import { showTwoFigures } from '../../units/number-format.ts';
import type { Rule } from '../../units/rule.ts';
import { edgeEnd, edgeStart } from '../edge.ts';
import { clipPlaneAt, type EndPlanes, isSquare } from '../ends/end-planes.ts';
import type { PartEdge } from '../part.ts';
import { type LeastWidth, selfCrossing } from './least-width.ts';

/** An end is cut straight through both edges. @throws Fault `part.ends-not-square` */
export function assertEndsAligned(lower: PartEdge, upper: PartEdge, { unit }: Rule): void {
  const ends = [
    ['left', edgeStart(lower), edgeStart(upper)],
    ['right', edgeEnd(lower), edgeEnd(upper)],
  ] as const;
  for (const [side, a, b] of ends)
    if (Math.abs(a.x - b.x) > JOIN_MM)
      throw new Fault(
        'part.ends-not-square',
        (mm) =>
          `the two edges end at different stations: at the ${side} end "${lower.name}" at ${mm(a.x)} and "${upper.name}" at ${mm(b.x)}` +
          `${mm(a.x) === mm(b.x) ? `, ${showTwoFigures(Math.abs(a.x - b.x), unit)} apart` : ''}. ` +
          `Use the station of the long point for both. For an angled end, add "ends: {${side}: {miter: 6}}".`,
        `edges.${upper.name}`,
      );
}

/** A slanting cut must not meet a shoulder on either face. @throws Fault `ends.shoulder` */
export function assertShouldersKept(edges: readonly PartEdge[], { left, right }: EndPlanes, { stock }: Job) {
  const depths = [0, stock?.thickness ?? 0];
  const cuts = [left, right]
    .filter((plane) => !isSquare(plane) && plane.by !== 'curve')
    .flatMap((plane) => depths.map((depth) => ({ ...clipPlaneAt(plane, depth), side: plane.side })));
  for (const { signedDistance, key, side } of cuts)
    for (const edge of edges) {
      const shoulder = edge.pieces.find(
        (piece) => isShoulder(piece) && [piece.from, piece.to].some((at) => signedDistance(at) > -JOIN_MM),
      );
      if (shoulder)
        throw new Fault(
          'ends.shoulder',
          (mm) =>
            `the cut of the ${side} end runs through the shoulder of "${edge.name}" at station ${mm(pieceStart(shoulder).x)}. ` +
            'Move the shoulder away from the end, or use a smaller angle.',
          key,
        );
    }
}

/** Wood thinner than this is none, mm: a shaving is thicker. The width itself is true to a hundredth of it. */
const MIN_WOOD_MM = 0.01;

/** Edges may meet at an end only. @throws Fault `part.edges-touch` */
export function assertNotTouching(lower: PartEdge, upper: PartEdge, { width, at }: LeastWidth): void {
  const isEnd = [edgeStart, edgeEnd].some((end) => distance(end(lower), at) < MIN_WOOD_MM);
  if (width < MIN_WOOD_MM && !isEnd) throw noWoodFault('touch', lower, upper, at);
}

export function assertNotCrossing(lower: PartEdge, upper: PartEdge, at: Point | undefined): void {
  if (at) throw noWoodFault('cross', lower, upper, at);
}

const noWoodFault = (how: 'touch' | 'cross', lower: PartEdge, upper: PartEdge, at: Point): Fault =>
  new Fault(
    `part.edges-${how}`,
    (mm) =>
      `the edges "${lower.name}" and "${upper.name}" ${how} at station ${mm(at.x)}. ` +
      'Move one of them, to leave wood between them.',
    `edges.${upper.name}`,
  );

/** A half ellipse on a slanting chord can overhang its step. @throws Fault `part.edge-crosses-itself` */
export function assertNotSelfCrossing({ name }: PartEdge, chain: PolylineBvh): void {
  const at = selfCrossing(chain);
  if (at)
    throw new Fault(
      'part.edge-crosses-itself',
      (mm) => `the edge "${name}" crosses itself at station ${mm(at.x)}. Use less rise, or a longer chord.`,
      `edges.${name}`,
    );
}
