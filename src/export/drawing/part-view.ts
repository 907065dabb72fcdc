import { type Affine, transformPoint } from '../../curves/geometry/affine.ts';
import type { LineSegment, Segment } from '../../curves/geometry/pieces/piece.ts';
import { add, type Point, point, scale } from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { JointLine } from '../../job/joints/joint-kind.ts';
import { drawJoint, isCuttingJoint, type Joint } from '../../job/joints/joint-kinds.ts';
import { isOnEdge } from '../../job/joints/joint-side.ts';
import { edgeMarks } from '../../part/joints/edge-joint.ts';
import type { Part } from '../../part/part.ts';
import { type LineRole, partLines } from '../../part/part-lines.ts';
import { offsetsAtStation } from './dimensions.ts';
import { LINE_STYLES, type LineStyle, type Stroke } from './drawing.ts';

export interface PartView {
  readonly part: Part;
  readonly at: (place: Point) => Point;
  readonly path: (path: readonly Segment[]) => Segment[];
}

export const partView = (part: Part, matrix: Affine): PartView => ({
  part,
  at: (place) => transformPoint(matrix, place),
  path: (path) => transformPath(path, matrix),
});

/** In their usual styles but for those given. */
export const partStrokes = <R extends LineRole>(
  { part, path }: PartView,
  roles: readonly R[],
  styles: { readonly [role in R]?: LineStyle } = {},
): Stroke[] =>
  partLines(part, roles).map((line) => ({
    type: 'stroke',
    style: styles[line.role] ?? LINE_STYLES[line.role],
    path: path(line.path),
    closed: line.closed,
  }));

export const jointStrokes = ({ part, path }: PartView, joints: readonly Joint[]): Stroke[] =>
  joints
    .flatMap((joint) => jointLines(part, joint))
    .map((line) => ({ type: 'stroke', ...line, path: path(line.path) }));

/** How far a line across the part runs past its edges. */
const PAST_MM = 6;

/** Half the tick across an edge where a joint on it starts or ends. */
const EDGE_TICK_MM = 4;

export interface PlanLine extends Omit<JointLine, 'style'> {
  readonly style: JointLine['style'] | 'behind';
}

/** As seen on the reference face: dashed what is on the other face, and by ticks what is on an edge. */
export function jointLines(part: Part, joint: Joint): readonly PlanLine[] {
  if (isOnEdge(joint)) return edgeTicks(part, joint);
  const lines = linesOnFace(part, joint);
  return joint.face === undefined ? lines : lines.map((line) => ({ ...line, style: 'behind' }));
}

function edgeTicks(part: Part, joint: Joint): PlanLine[] {
  const marks = edgeMarks(joint, part);
  if (!marks) return [];
  const { start, middle, end, inward } = marks;
  const tick = (style: JointLine['style'], at: Point): PlanLine => ({
    style,
    path: [segmentBetween(add(at, scale(inward, -EDGE_TICK_MM)), add(at, scale(inward, EDGE_TICK_MM)))],
  });
  const centre = tick('axis', middle);
  if (!isCuttingJoint(joint)) return [joint.kind === 'mark' ? tick('mark', middle) : centre];
  return [tick('mark', start), tick('mark', end), centre];
}

function linesOnFace(part: Part, joint: Joint): readonly JointLine[] {
  const { left, right, bottom, top } = part.bounds;
  return drawJoint(joint, {
    across: (station) =>
      lineAcross(part, station, PAST_MM) ??
      segmentBetween(point(station, bottom - PAST_MM), point(station, top + PAST_MM)),
    along: (offset) => segmentBetween(point(left - PAST_MM, offset), point(right + PAST_MM, offset)),
  });
}

/** From edge to edge at a station, or from chord to curve, and so far (mm) past both; undefined beyond the edges. */
export function lineAcross(part: Part, station: number, past: number): LineSegment | undefined {
  const offsets = offsetsAtStation(part, station);
  if (offsets.length === 0) return undefined;
  const [low, high] = [Math.min(...offsets) - past, Math.max(...offsets) + past];
  return segmentBetween(point(station, low), point(station, high));
}

export const segmentBetween = (from: Point, to: Point): LineSegment => ({ type: 'line', from, to });
