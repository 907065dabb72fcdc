import type { Box } from '../../curves/geometry/bounds.ts';
import { paramCurve } from '../../curves/geometry/evaluate.ts';
import { type Chord, flatten } from '../../curves/geometry/flatten.ts';
import { isShoulder, type Segment } from '../../curves/geometry/pieces/piece.ts';
import {
  add,
  direction,
  distance,
  dot,
  leftNormal,
  type Point,
  point,
  scale,
  subtract,
} from '../../curves/geometry/point.ts';
import { cornersOnFace, lowerEdge } from '../../part/edge.ts';
import { isHanded } from '../../part/handedness.ts';
import type { Part } from '../../part/part.ts';
import { polyline, type Stroke } from '../drawing/drawing.ts';
import { boxesAlongLines, centreOf, isFree, type OccupiedSpace } from '../labels/free-space.ts';
import { boxContains, type LabelledSheet, type SheetContext } from './sheet-context.ts';

const TRIES_PER_SEGMENT = 24;
const WHITE_MM = 0.8;
/** Off the ends of the edge, mm: a mark there is cut off with the wood. */
const END_MM = 8;
const AT_EDGE_MM = 5.5;
/** Steeper to the edge than this, a line is none along it. */
const ALONG = Math.cos(Math.PI / 6);

/** A loop on the reference face, a V on the reference edge, where there is room; common practice, no published source. */
export function faceMark(sheet: LabelledSheet): Stroke[] {
  const { part, space } = sheet;
  if (!hasFaceMark(part)) return [];
  const edge = lowerEdge(part);
  const [from, to] = cornersOnFace(part, edge);
  for (const segment of segmentsToTry(edge.path)) {
    const place = paramCurve(segment);
    for (let i = 1; i < TRIES_PER_SEGMENT; i++) {
      const { x, y, angle } = place(i / TRIES_PER_SEGMENT);
      if (x < from.x + END_MM || x > to.x - END_MM) continue;
      if (!boxContains(sheet.sheet.cell, sheet.at(point(x, y)))) continue;
      const strokes = faceMarkStrokes(sheet, point(x, y), angle);
      const chords = strokes.flatMap(({ path }) => flatten(path, 0.2));
      if (!isFaceMarkFree(space, chords, faceMarkFoot(sheet, point(x, y), angle))) continue;
      space.occupied.push(...boxesAlongLines(chords, WHITE_MM));
      return strokes;
    }
  }
  return [];
}

/** Along a tenon last: its cheeks are sawn off, and the marks with them. */
function segmentsToTry(edge: readonly Segment[]): Segment[] {
  const isShoulderAt = (i: number): boolean => edge.slice(i, i + 1).some(isShoulder);
  const last = edge.length - 1;
  const onTenon = edge.filter(
    (_, i) => (i === 0 && isShoulderAt(1)) || (i === last && isShoulderAt(last - 1)),
  );
  return [...edge.filter((one) => !onTenon.includes(one)), ...onTenon].filter((one) => !isShoulder(one));
}

export const hasFaceMark = (part: Part): boolean =>
  part.shape.type === 'closed' && (part.pair === 'mirrored' || isHanded(part));

/** The loop inside the edge and the V outside it, from their common foot; mm along the edge and into the part. */
const LOOP: readonly (readonly [Point, Point, Point, Point])[] = [
  [point(0, 0), point(1.5, 6), point(5, 14), point(0.5, 14)],
  [point(0.5, 14), point(-4, 14), point(-1, 7), point(6, 7)],
];
const VEE: readonly Point[] = [point(-3, -8), point(0, 0), point(3, -8)];

function faceMarkStrokes(view: SheetContext, foot: Point, angle: number): Stroke[] {
  const [way, inward] = [direction(angle), leftNormal(direction(angle))];
  const place = ({ x, y }: Point): Point => add(foot, add(scale(way, x), scale(inward, y)));
  const loop = LOOP.map(
    ([a, b, c, d]): Segment => ({ type: 'cubic', controls: [place(a), place(b), place(c), place(d)] }),
  );
  const vee = VEE.map((one) => view.at(place(one)));
  return [{ type: 'stroke', style: 'mark', path: view.path(loop) }, polyline('mark', vee)];
}

/** So near it the marks may touch the edge and its saw line, but never a shoulder or an end. */
function faceMarkFoot(view: SheetContext, on: Point, angle: number) {
  const at = view.at(on);
  const way = subtract(view.at(add(on, direction(angle))), at);
  const across = view.lines.filter(
    ({ from, to }) => Math.abs(dot(way, subtract(to, from))) < ALONG * distance(from, to),
  );
  return { at, near: AT_EDGE_MM + view.part.sawAllowance, across: boxesAlongLines(across, WHITE_MM) };
}

function isFaceMarkFree(
  space: OccupiedSpace,
  marks: readonly Chord[],
  { at, near, across }: ReturnType<typeof faceMarkFoot>,
): boolean {
  const occupied = [...space.occupied.filter((one) => !space.lineBoxes?.has(one)), ...across];
  const atEdge: OccupiedSpace = { area: space.area, occupied };
  const roomAt = (box: Box): OccupiedSpace => (distance(at, centreOf(box)) > near ? space : atEdge);
  return boxesAlongLines(marks, 0).every((box) => isFree(roomAt(box), box));
}
