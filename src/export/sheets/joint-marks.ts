import { type Box, pathBox } from '../../curves/geometry/bounds.ts';
import { type Chord, chordsOf, passes } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { add, direction, type Point, point, scale } from '../../curves/geometry/point.ts';
import type { Joint, Recess } from '../../job/job.ts';
import { type Cutting, isCutting, jointShape, shiftOf } from '../../part/joints/joint-shape.ts';
import type { Part } from '../../part/part.ts';
import { jointMeasures, jointName, jointPlace, jointSize } from '../cover/joint-words.ts';
import { bare } from '../drawing/dimensions.ts';
import { type Item, type LineStyle, type Stroke, words } from '../drawing/drawing.ts';
import { LEADING, textWidth } from '../drawing/text-width.ts';
import type { Room } from '../labels/free-space.ts';
import { type Named, type Naming, spotsBeside, takeNamed } from '../labels/place-labels.ts';
import { holds, onSheet, pathOnSheet, type SheetView } from './sheet-context.ts';
import { offsetsAcross } from './station-lines.ts';

/** A hole's cross stands out this far, mm, so that its middle is found again under the point of an awl. */
const CROSS_PAST_MM = 4;
/** Half the cross of a mark. */
const MARK_ARM_MM = 5;
/** A centre line or a mark across the part runs this far past its edges, mm. */
const PAST_MM = 6;
/** From a leaning hole the arrow that shows which way it runs, mm. */
const ARROW_MM = 9;
const HEAD_MM = 2;

const LABEL_MM = 3.2;

/** One line of a joint as it lies on the face, mm on the part. */
interface JointLine {
  readonly style: LineStyle;
  readonly path: readonly Segment[];
  readonly closed?: boolean;
}

/** The joints laid out on the face, over one sheet. */
export const jointStrokes = (view: SheetView): Stroke[] =>
  view.setting.joints.flatMap((joint) =>
    jointLines(view.part, joint).map(
      ({ style, path, closed }): Stroke => ({
        type: 'stroke',
        style,
        path: pathOnSheet(view, path),
        ...(closed && { closed }),
      }),
    ),
  );

/** The same lines as words must keep clear of them. */
export const jointChords = (view: SheetView): Chord[] =>
  jointStrokes(view)
    .flatMap(({ path }) => chordsOf(path))
    .filter((chord) => passes(chord, view.sheet.window));

/** All that is drawn of a joint, mm on the part. */
export function jointLines(part: Part, joint: Joint): JointLine[] {
  switch (joint.kind) {
    case 'centre-line':
      return [{ style: 'axis', path: [centreLine(part, joint.line)] }];
    case 'mark':
      return joint.out === undefined
        ? [{ style: 'mark', path: [across(part, joint.at)] }]
        : cross('mark', point(joint.at, joint.out), MARK_ARM_MM, 0);
    default:
      return [{ style: 'joint', path: jointShape(joint).outline, closed: true }, ...centres(joint)];
  }
}

/** Where a bit is set: in the middle of a hole, at both ends of a slot. */
function centres(joint: Cutting): JointLine[] {
  if (joint.kind === 'slot')
    return slotEnds(joint).flatMap((at) => cross('axis', at, joint.width / 2 + CROSS_PAST_MM, joint.turn));
  if (joint.kind !== 'hole') return [];
  const { at, diameter, lean } = joint;
  return [
    ...cross('axis', at, diameter / 2 + CROSS_PAST_MM, 0),
    ...(lean ? arrow(at, shiftOf({ ...lean, by: Math.PI / 4 }, 1), diameter / 2 + ARROW_MM) : []),
  ];
}

const slotEnds = ({ at, length, width, turn }: Recess): Point[] =>
  [1, -1].map((side) => add(at, scale(direction(turn), (side * (length - width)) / 2)));

function cross(style: LineStyle, at: Point, arm: number, turn: number): JointLine[] {
  return [direction(turn), direction(turn + Math.PI / 2)].map((way) => ({
    style,
    path: [line(add(at, scale(way, -arm)), add(at, scale(way, arm)))],
  }));
}

/** `way` is a unit vector along the part or across it. */
function arrow(at: Point, way: Point, reach: number): JointLine[] {
  const tip = add(at, scale(way, reach));
  const barb = (side: 1 | -1): Point =>
    add(tip, add(scale(way, -HEAD_MM), scale(point(-way.y, way.x), (side * HEAD_MM) / 2)));
  return [
    { style: 'mark', path: [line(at, tip)] },
    { style: 'mark', path: [line(barb(1), tip), line(tip, barb(-1))] },
  ];
}

function centreLine(part: Part, place: { readonly at: number } | { readonly out: number }): Segment {
  if ('at' in place) return across(part, place.at);
  const { left, right } = part.bounds;
  return line(point(left - PAST_MM, place.out), point(right + PAST_MM, place.out));
}

/** From edge to edge at a station and a little past them, from below. */
function across(part: Part, station: number): Segment {
  const offsets = offsetsAcross(part, station);
  const [low, high] =
    offsets.length > 0 ? [Math.min(...offsets), Math.max(...offsets)] : [part.bounds.bottom, part.bounds.top];
  return line(point(station, low - PAST_MM), point(station, high + PAST_MM));
}

const line = (from: Point, to: Point): Segment => ({ type: 'line', from, to });

/** Each joint's name and measures beside it, on the sheet that holds its middle: at worst its number alone. */
export function jointLabels(view: SheetView, room: Room, named: Named): Item[] {
  const rivals = thingsOf(view);
  return view.setting.joints.flatMap((joint, i) => {
    const anchor = labelAnchor(view.part, joint);
    if (!holds(view.sheet.cell, onSheet(view, anchor.at))) return [];
    const beside = chordsOf(pathOnSheet(view, anchor.path));
    const show = (mm: number): string => bare(mm, view.part.rule);
    const said = labelLines(`${i + 1}`, joint, show);
    // All of it outside the part tells more than its number within.
    for (const [wordings, across] of [
      [said.full, false],
      [said.full, true],
      [said.short, false],
      [said.short, true],
    ] as const)
      for (const lines of wordings) {
        const naming = { own: rivals[i]!, rivals, across };
        const items = labelBeside(room, named, naming, beside, lines);
        if (items.length > 0) return items;
      }
    return [];
  });
}

/** The joints as their labels stand beside them, in the order of their numbers. */
export const thingsOf = (view: SheetView): Box[] =>
  view.setting.joints.map((joint) => pathBox(pathOnSheet(view, labelAnchor(view.part, joint).path)));

/** What a joint's label may say: all in two lines or in more and narrower ones; its name alone, its number. */
function labelLines(
  number: string,
  joint: Joint,
  show: (mm: number) => string,
): { readonly full: readonly string[][]; readonly short: readonly string[][] } {
  const name = `${number} ${jointName(joint)}`;
  const [place, size] = [jointPlace(joint, show), jointSize(joint, show)];
  const sizes = size === '' ? [] : [size];
  return {
    full: [
      [name, jointMeasures(joint, show)],
      [name, place, ...sizes],
      [name, place, ...sizes.flatMap((all) => all.split(', '))],
    ],
    short: [[name], [number]],
  };
}

/** What a label stands beside, mm on the part: a joint, one end of a line, the middle of a mark. */
export function labelAnchor(
  part: Part,
  joint: Joint,
): { readonly at: Point; readonly path: readonly Segment[] } {
  const lines = jointLines(part, joint);
  if (isCutting(joint)) return { at: joint.at, path: lines.flatMap(({ path }) => path) };
  const at =
    joint.kind === 'mark' && joint.out !== undefined ? point(joint.at, joint.out) : nameEnd(lines[0]!.path);
  return { at, path: [line(at, at)] };
}

/** A line across the part is named at its upper end, one along it at its left end. */
function nameEnd([first]: readonly Segment[]): Point {
  const { from, to } = first as Extract<Segment, { type: 'line' }>;
  return from.x < to.x ? from : to;
}

function labelBeside(
  room: Room,
  named: Named,
  naming: Naming,
  beside: readonly Chord[],
  lines: readonly string[],
): Item[] {
  const width = Math.max(...lines.map((text) => textWidth(text, LABEL_MM))) + 1;
  const height = lines.length * LEADING * LABEL_MM;
  const led = takeNamed(room, named, naming, spotsBeside(beside, width, height));
  if (!led) return [];
  const { box, lead } = led;
  return [
    ...lead,
    ...lines.map((text, i) => {
      const at = point((box.left + box.right) / 2, box.top - LABEL_MM * (0.85 + LEADING * i));
      return words(text, at, LABEL_MM, 'middle');
    }),
  ];
}
