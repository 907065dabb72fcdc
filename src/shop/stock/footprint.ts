import { type Affine, IDENTITY, translate } from '../../curves/geometry/affine.ts';
import { pathBounds, union } from '../../curves/geometry/bounds.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import { outlineFromAbove } from '../../part/outline/outline.ts';
import { parallelLine } from '../../part/outline/saw-line.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';

/** What a part covers of a board, seen from above, with its lower left corner at 0, 0. */
export interface Footprint {
  /** Closed paths that may overlap; one open path for a line pattern. */
  readonly paths: readonly (readonly Segment[])[];
  readonly length: number;
  readonly width: number;
  /** From the part's frame to the footprint's. */
  readonly toBoard: Affine;
}

/**
 * The outline, saw line or finished, and what a slanting end has on the other face, turned so that the grain (radians)
 * runs along the board. It holds all of the wood, within FIT_MM.
 * @throws Fault `stock.grain`; `parallel.folds` where no saw line runs round a slanting end's other face
 */
export function footprintOf(part: Part, grain: number): Footprint {
  if (!Number.isFinite(grain))
    throw new Fault(
      'stock.grain',
      `${grain} is not an angle of the grain. Give an angle such as 10.`,
      '--grain',
    );
  const [cos, sin] = [Math.cos(grain), -Math.sin(grain)];
  const turn: Affine = grain === 0 ? IDENTITY : [cos, sin, -sin, cos, 0, 0];
  const turned = outlinesToSaw(part).map((path) => transformPath(path, turn));
  const { left, bottom, right, top } = union(turned.map(pathBounds));
  const paths = turned.map((path) => transformPath(path, translate(IDENTITY, -left, -bottom)));
  return { paths, length: right - left, width: top - bottom, toBoard: translate(turn, -left, -bottom) };
}

function outlinesToSaw(part: Part): (readonly Segment[])[] {
  const { shape, saw, sawAllowance } = part;
  if (shape.type !== 'closed') return [saw.length > 0 ? [...shape.line, ...saw] : shape.line];
  const seen = outlineFromAbove(part);
  if (saw.length === 0) return [shape.outline, ...(seen ? [seen.outline] : [])];
  return [saw, ...(seen ? [parallelLine({ ...part, exact: seen.exact }, sawAllowance)] : [])];
}
