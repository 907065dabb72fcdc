import { type Affine, IDENTITY, shifted } from '../curves/affine.ts';
import { type Box, pathBox, unitedBox } from '../curves/box.ts';
import type { Segment } from '../curves/piece.ts';
import { add, point } from '../curves/point.ts';
import { mapPath, polygon } from '../curves/segment.ts';
import { JOIN_MM } from '../curves/tolerance.ts';
import type { PartEnd } from '../part/ends.ts';
import type { Part } from '../part/part.ts';
import { Fault } from '../units/fault.ts';

/** What a part takes of a board, seen from above: it lies along the board with its lower left corner at 0, 0. */
export interface Footprint {
  /** Closed paths that may overlap; one open path for a line pattern. */
  readonly paths: readonly (readonly Segment[])[];
  readonly length: number;
  readonly width: number;
  /** From the part's frame to here. */
  readonly toBoard: Affine;
}

/**
 * The outline to saw, or the finished one, with what a slanting end has on the other face, turned so that the grain
 * runs along the board.
 * @param grain the way of the grain on the part, radians counter-clockwise from the reference line
 * @throws Fault `stock.grain` where it is not finite
 */
export function footprintOf(part: Part, grain: number): Footprint {
  if (!Number.isFinite(grain))
    throw new Fault('stock.grain', `the grain does not run at ${grain}. Give an angle.`, '--grain');
  const [cos, sin] = [Math.cos(grain), -Math.sin(grain)];
  const turn: Affine = grain === 0 ? IDENTITY : [cos, sin, -sin, cos, 0, 0];
  const turned = pathsOf(part).map((path) => mapPath(path, turn));
  const { left, bottom, right, top } = boxOfAll(turned);
  return {
    paths: turned.map((path) => mapPath(path, shifted(IDENTITY, -left, -bottom))),
    length: right - left,
    width: top - bottom,
    toBoard: shifted(turn, -left, -bottom),
  };
}

const boxOfAll = (paths: readonly (readonly Segment[])[]): Box => unitedBox(paths.map(pathBox));

function pathsOf(part: Part): (readonly Segment[])[] {
  const { shape, saw, ends = [] } = part;
  if (shape.type !== 'closed') return [saw.length > 0 ? [...shape.line, ...saw] : shape.line];
  return [saw.length > 0 ? saw : shape.outline, ...ends.flatMap((end) => farSide(end, part))];
}

/** The wood between a slanting cut on the face and on the other one, with the saw's allowance round it. */
function farSide({ side, face, back }: PartEnd, { sawAllowance }: Part): Segment[][] {
  if (Math.abs(face[0].x - back[0].x) < JOIN_MM && Math.abs(face[1].x - back[1].x) < JOIN_MM) return [];
  const out = side === 'right' ? sawAllowance : -sawAllowance;
  const outline = polygon([
    add(face[0], point(0, -sawAllowance)),
    add(back[0], point(out, -sawAllowance)),
    add(back[1], point(out, sawAllowance)),
    add(face[1], point(0, sawAllowance)),
  ]);
  return [outline];
}
