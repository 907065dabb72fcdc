import { samplePiece } from '../../curves/geometry/evaluate.ts';
import type { Piece, Segment } from '../../curves/geometry/pieces/piece.ts';
import { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import { parallelPath } from '../../curves/offset/offset-curve.ts';
import { Fault } from '../../units/fault.ts';
import type { Part } from '../part.ts';

/** The parallel of the finished line, positive in the waste, mm. @throws Fault `parallel.folds`, `parallel.no-room` */
export function parallelLine(
  { shape, exact, edges }: Pick<Part, 'shape' | 'exact' | 'edges'>,
  outside: number,
  tolerance = FIT_MM,
): Segment[] {
  const closed = shape.type === 'closed';
  // A closed outline runs counter-clockwise, its outside to the right.
  const toTheRight = closed || edges[0].woodIsAbove;
  const path = parallelPath(exact, toTheRight ? -outside : outside, closed, tolerance);
  if (outside < 0) assertParallelFits(path, exact, -outside);
  return path;
}

const CHECKS_PER_SEGMENT = 16;

/** A parallel that crosses that of the other edge is too close to the line somewhere. @throws Fault `parallel.no-room` */
export function assertParallelFits(path: readonly Segment[], line: readonly Piece[], away: number): void {
  const chain = new PolylineBvh(line);
  const near = path
    .flatMap((segment) => samplePiece(segment, CHECKS_PER_SEGMENT))
    .find((place) => chain.closestPoint(place).distance <= away - 2 * FIT_MM);
  if (near)
    throw new Fault(
      'parallel.no-room',
      (mm) =>
        `a parallel ${mm(away)} away does not fit at station ${mm(near.x)}: another part of the edge is too close. ` +
        'Use a smaller distance, or leave more room there.',
    );
}
