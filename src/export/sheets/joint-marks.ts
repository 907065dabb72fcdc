import { type Box, pathBounds } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import type { LineSegment, Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { JointLine } from '../../job/joints/joint-kind.ts';
import {
  drawJoint,
  isCuttingJoint,
  type Joint,
  jointPoint,
  jointSize,
} from '../../job/joints/joint-kinds.ts';
import type { Part } from '../../part/part.ts';
import { firstOf, itemAt } from '../../units/checked.ts';
import type { ShowLength } from '../../units/fault.ts';
import { jointMeasures, jointName, jointPlace } from '../cover/joint-words.ts';
import { lengthWithoutUnit, offsetsAtStation } from '../drawing/dimensions.ts';
import type { Item, Stroke } from '../drawing/drawing.ts';
import {
  candidatesBeside,
  type Label,
  type LabelBlock,
  placeLabels,
  SHEET_LABEL,
  textBlock,
} from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, onSheet, pathOnSheet, type SheetContext } from './sheet-context.ts';

/** How far a line across the part runs past its edges. */
const PAST_MM = 6;
/** Laid out on the face, over one sheet. */
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

export const jointLines = (part: Part, joint: Joint): readonly JointLine[] =>
  drawJoint(joint, {
    across: (station) => lineAcross(part, station),
    along: (offset) =>
      segmentBetween(point(part.bounds.left - PAST_MM, offset), point(part.bounds.right + PAST_MM, offset)),
  });

function lineAcross(part: Part, station: number): Segment {
  const offsets = offsetsAtStation(part, station);
  const [low, high] =
    offsets.length > 0 ? [Math.min(...offsets), Math.max(...offsets)] : [part.bounds.bottom, part.bounds.top];
  return segmentBetween(point(station, low - PAST_MM), point(station, high + PAST_MM));
}

const segmentBetween = (from: Point, to: Point): Segment => ({ type: 'line', from, to });

export const jointAnchors = (context: SheetContext): Box[] =>
  context.dimensions.joints.map((joint) =>
    pathBounds(pathOnSheet(context, labelAnchor(context.part, joint).path)),
  );

/** On the sheet that holds the joint's middle. */
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

/** All of a joint in two lines, or in more and narrower ones; its name; its number. */
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
  const at = jointPoint(joint) ?? nameEnd(firstOf(firstOf(lines).path));
  return { at, path: [segmentBetween(at, at)] };
}

/** A line across the part is named at its upper end, one along it at its left end. */
function nameEnd(segment: Segment): Point {
  const { from, to } = segment as LineSegment;
  return from.x < to.x ? from : to;
}
