import { type Box, pathBounds } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import type { LineSegment, Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { isCuttingJoint, type Joint, jointSize } from '../../job/joints/joint-kinds.ts';
import { jointPlanPoint } from '../../part/joints/edge-joint.ts';
import type { Part } from '../../part/part.ts';
import { firstOf, itemAt } from '../../units/checked.ts';
import type { ShowLength } from '../../units/fault.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { jointMeasures, jointName, jointPlace, jointSideWords } from '../cover/joinery-words.ts';
import { lengthWithoutUnit } from '../drawing/dimensions.ts';
import type { Item } from '../drawing/drawing.ts';
import { jointLines, segmentBetween } from '../drawing/part-view.ts';
import { candidatesBeside, type Label, placeLabels } from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, type SheetContext } from './sheet-context.ts';
import { figures, typedBlock } from './sheet-type.ts';

/** Heights of the figures of a joint that are tried in turn, mm: its label is a long line. */
const JOINT_FIGURES_MM = [3.5, 2.9, 2.5];

export const jointAnchors = (context: SheetContext): Box[] =>
  context.dimensions.joints.map((joint) => pathBounds(context.path(labelAnchor(context.part, joint).path)));

/** On the sheet that holds the joint's middle. */
export function jointLabels(sheet: LabelledSheet): Item[] {
  const { part, jointAnchors: anchors } = sheet;
  const show = (mm: number): string => lengthWithoutUnit(mm, part.rule);
  const labels = sheet.dimensions.joints.flatMap((joint, i): Label[] => {
    const { at, path } = labelAnchor(part, joint);
    if (!boxContains(sheet.sheet.cell, sheet.at(at))) return [];
    const candidates = candidatesBeside(flatten(sheet.path(path)));
    const blocks = jointLabelBlocks(`${i + 1}`, joint, show);
    return [{ anchor: itemAt(anchors, i), competing: anchors, blocks, candidates }];
  });
  return placeLabels(sheet.space, labels);
}

function jointLabelBlocks(number: string, joint: Joint, show: ShowLength) {
  const name = `${number} ${jointName(joint)}`;
  const [place, size] = [typesetMeasures(jointPlace(joint, show)), jointSize(joint, show)];
  const sizes = size === '' ? [] : [size];
  const full = [
    [name, typesetMeasures(jointMeasures(joint, show))],
    [name, place, ...sizes],
    [name, place, ...sizes.flatMap((all) => all.split(', '))],
  ];
  // All of it outside the part tells more than its number within.
  const side = jointSideWords(joint);
  const named = side ? [[name, typesetMeasures(side)]] : [];
  return [full, [...named, [name], [number]]].flatMap((wordings) =>
    [false, true].flatMap((mayCrossLines) =>
      JOINT_FIGURES_MM.flatMap((height) =>
        wordings.map((lines) => {
          const typed = lines.map((text) => figures(text, height));
          return { ...typedBlock(typed, 'middle'), mayCrossLines };
        }),
      ),
    ),
  );
}

export function labelAnchor(part: Part, joint: Joint) {
  const lines = jointLines(part, joint);
  const place = jointPlanPoint(joint, part);
  if (place && isCuttingJoint(joint)) return { at: place, path: lines.flatMap(({ path }) => path) };
  const at = place ?? nameEnd(firstOf(firstOf(lines).path));
  return { at, path: [segmentBetween(at, at)] };
}

/** A line across the part is named at its upper end, one along it at its left end. */
function nameEnd(segment: Segment): Point {
  const { from, to } = segment as LineSegment;
  return from.x < to.x ? from : to;
}
