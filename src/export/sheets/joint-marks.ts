import { type Box, pathBounds } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import type { LineSegment, Segment } from '../../curves/geometry/pieces/piece.ts';
import { add, direction, leftNormal, type Point, point, scale } from '../../curves/geometry/point.ts';
import type { Joint, Recess } from '../../job/job.ts';
import { type CuttingJoint, isCuttingJoint, jointShape, leanShift } from '../../part/joints/joint-shape.ts';
import type { Part } from '../../part/part.ts';
import { firstOf, itemAt } from '../../units/checked.ts';
import type { ShowLength } from '../../units/fault.ts';
import { jointMeasures, jointName, jointPlace, jointSize } from '../cover/joint-words.ts';
import { lengthWithoutUnit, offsetsAtStation } from '../drawing/dimensions.ts';
import type { Item, LineStyle, Stroke } from '../drawing/drawing.ts';
import {
  candidatesBeside,
  type Label,
  type LabelBlock,
  placeLabels,
  SHEET_LABEL,
  textBlock,
} from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, onSheet, pathOnSheet, type SheetContext } from './sheet-context.ts';

/** A hole's cross stands out this far, mm, so that its middle is found again under the point of an awl. */
const CROSS_PAST_MM = 4;
/** Half the cross of a mark. */
const MARK_ARM_MM = 5;
/** A centre line or a mark across the part runs this far past its edges, mm. */
const PAST_MM = 6;
/** From a leaning hole the arrow that shows which way it runs, mm. */
const ARROW_MM = 9;
const HEAD_MM = 2;

/** One line of a joint as it lies on the face, mm on the part. */
interface JointLine {
  readonly style: LineStyle;
  readonly path: readonly Segment[];
  readonly closed?: boolean;
}

/** The joints laid out on the face, over one sheet. */
export const jointStrokes = (context: SheetContext): Stroke[] =>
  context.dimensions.joints.flatMap((joint) =>
    jointLines(context.part, joint).map(
      ({ style, path, closed }): Stroke => ({
        type: 'stroke',
        style,
        path: pathOnSheet(context, path),
        ...(closed && { closed }),
      }),
    ),
  );

/** All that is drawn of a joint, mm on the part. */
export function jointLines(part: Part, joint: Joint): JointLine[] {
  switch (joint.kind) {
    case 'centre-line':
      return [{ style: 'axis', path: [centreLine(part, joint.line)] }];
    case 'mark':
      return joint.out === undefined
        ? [{ style: 'mark', path: [lineAcross(part, joint.at)] }]
        : cross('mark', point(joint.at, joint.out), MARK_ARM_MM, 0);
    default:
      return [{ style: 'joint', path: jointShape(joint).outline, closed: true }, ...jointCentreMarks(joint)];
  }
}

/** Where a bit is set: in the middle of a hole, at both ends of a slot. */
function jointCentreMarks(joint: CuttingJoint): JointLine[] {
  if (joint.kind === 'slot')
    return slotEnds(joint).flatMap((at) => cross('axis', at, joint.width / 2 + CROSS_PAST_MM, joint.turn));
  if (joint.kind !== 'hole') return [];
  const { at, diameter, lean } = joint;
  return [
    ...cross('axis', at, diameter / 2 + CROSS_PAST_MM, 0),
    ...(lean ? leanArrow(at, leanShift({ ...lean, by: Math.PI / 4 }, 1), diameter / 2 + ARROW_MM) : []),
  ];
}

const slotEnds = ({ at, length, width, turn }: Recess): Point[] =>
  [1, -1].map((side) => add(at, scale(direction(turn), (side * (length - width)) / 2)));

function cross(style: LineStyle, at: Point, arm: number, turn: number): JointLine[] {
  return [direction(turn), direction(turn + Math.PI / 2)].map((way) => ({
    style,
    path: [segmentBetween(add(at, scale(way, -arm)), add(at, scale(way, arm)))],
  }));
}

/** `way` is a unit vector along the part or across it. */
function leanArrow(at: Point, way: Point, reach: number): JointLine[] {
  const tip = add(at, scale(way, reach));
  const barb = (side: 1 | -1): Point =>
    add(tip, add(scale(way, -HEAD_MM), scale(leftNormal(way), (side * HEAD_MM) / 2)));
  return [
    { style: 'mark', path: [segmentBetween(at, tip)] },
    { style: 'mark', path: [segmentBetween(barb(1), tip), segmentBetween(tip, barb(-1))] },
  ];
}

function centreLine(part: Part, place: { readonly at: number } | { readonly out: number }): Segment {
  if ('at' in place) return lineAcross(part, place.at);
  const { left, right } = part.bounds;
  return segmentBetween(point(left - PAST_MM, place.out), point(right + PAST_MM, place.out));
}

/** From edge to edge at a station and a little past them, from below. */
function lineAcross(part: Part, station: number): Segment {
  const offsets = offsetsAtStation(part, station);
  const [low, high] =
    offsets.length > 0 ? [Math.min(...offsets), Math.max(...offsets)] : [part.bounds.bottom, part.bounds.top];
  return segmentBetween(point(station, low - PAST_MM), point(station, high + PAST_MM));
}

const segmentBetween = (from: Point, to: Point): Segment => ({ type: 'line', from, to });

/** The joints as their labels name them, in the order of their numbers, mm on the sheet. */
export const jointAnchors = (context: SheetContext): Box[] =>
  context.dimensions.joints.map((joint) =>
    pathBounds(pathOnSheet(context, labelAnchor(context.part, joint).path)),
  );

/** Each joint's name and measures beside it, on the sheet that holds its middle: at worst its number alone. */
export function jointLabels(sheet: LabelledSheet): Item[] {
  const { part, jointAnchors: anchors } = sheet;
  const show = (mm: number): string => lengthWithoutUnit(mm, part.rule);
  const labels = sheet.dimensions.joints.flatMap((joint, i): Label[] => {
    const { at, path } = labelAnchor(part, joint);
    if (!boxContains(sheet.sheet.cell, onSheet(sheet, at))) return [];
    const candidates = candidatesBeside(flatten(pathOnSheet(sheet, path)));
    const blocks = jointLabelBlocks(`${i + 1}`, joint, show);
    return [{ anchor: itemAt(anchors, i), competing: anchors, blocks, candidates }];
  });
  return placeLabels(sheet.space, labels);
}

/** All of a joint in two lines, or in more and narrower ones; its name alone; its number. */
function jointLabelBlocks(number: string, joint: Joint, show: ShowLength): LabelBlock[] {
  const name = `${number} ${jointName(joint)}`;
  const [place, size] = [jointPlace(joint, show), jointSize(joint, show)];
  const sizes = size === '' ? [] : [size];
  const full = [
    [name, jointMeasures(joint, show)],
    [name, place, ...sizes],
    [name, place, ...sizes.flatMap((all) => all.split(', '))],
  ];
  // All of it outside the part tells more than its number within.
  return [full, [[name], [number]]].flatMap((wordings) =>
    [false, true].flatMap((mayCrossLines) =>
      wordings.map((lines) => ({ ...textBlock(lines, SHEET_LABEL), mayCrossLines })),
    ),
  );
}

/** What a label names, mm on the part: a joint, one end of a line, the middle of a mark. */
export function labelAnchor(
  part: Part,
  joint: Joint,
): { readonly at: Point; readonly path: readonly Segment[] } {
  const lines = jointLines(part, joint);
  if (isCuttingJoint(joint)) return { at: joint.at, path: lines.flatMap(({ path }) => path) };
  const at =
    joint.kind === 'mark' && joint.out !== undefined
      ? point(joint.at, joint.out)
      : nameEnd(firstOf(firstOf(lines).path));
  return { at, path: [segmentBetween(at, at)] };
}

/** A line across the part is named at its upper end, one along it at its left end. */
function nameEnd(segment: Segment): Point {
  const { from, to } = segment as LineSegment;
  return from.x < to.x ? from : to;
}
