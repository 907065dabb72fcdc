import { type Box, boundsOf, inflate, pathBounds } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten } from '../../curves/geometry/flatten.ts';
import { distance, type Point } from '../../curves/geometry/point.ts';
import { cornersOf, isGivenPoint, isOnUpperEdge } from '../../part/landmarks.ts';
import type { Landmark } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { jointName } from '../cover/joint-words.ts';
import { dimensionsOf, lengthWithoutUnit, offsetText } from '../drawing/dimensions.ts';
import { circle, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, WIDEST_FONT_FACTOR } from '../drawing/text-width.ts';
import type { DrawnTooth, PictureView } from '../pictures/picture-view.ts';
import { jointLines, labelAnchor } from '../sheets/joint-marks.ts';
import {
  boxesAlongLines,
  candidateBoxes,
  nearestFree,
  type OccupiedSpace,
  squaredDistance,
} from './free-space.ts';
import {
  candidatesBeside,
  type LabelContext,
  type LabelPlacement,
  type LabelTarget,
  placeLabel,
} from './place-labels.ts';

/** What labels are set in: the size of their type, mm, and how much wider than in our own font they may run. */
export interface LabelFont {
  readonly size: number;
  readonly widthFactor: number;
}

/** A picture is an SVG, shown in whatever font its reader has. */
export const SCREEN_FONT: LabelFont = { size: 3, widthFactor: WIDEST_FONT_FACTOR };
/** How wide words may run, mm. */
export const widthInFont = (text: string, { size, widthFactor }: LabelFont): number =>
  textWidth(text, size) * widthFactor;

/** White round a label, mm. */
const WHITE_MM = 0.8;
/** Half the tick at an apex or a join, and the ring round a nail or pin. */
const TICK_MM = 2.5;
const RING_MM = 1.2;
/** How far off its place a label would stand, mm, and how far at most with a line to it. */
const PREFERRED_DISTANCE_MM = 3;
const MAX_LEADER_MM = 30;

/** Apexes, nails, pins and joins with their stations and offsets, where they cover neither line nor comb. */
export function pictureLabels(
  view: PictureView,
  combs: readonly DrawnTooth[][],
  area: OccupiedSpace['area'],
): Item[] {
  const { part, path } = view;
  const lines = flatten(path([...finishedLine(part.shape), ...part.saw]));
  const room: OccupiedSpace = {
    area,
    occupied: boxesAlongLines([...lines, ...combChords(combs), ...jointChordsOf(view)], WHITE_MM),
  };
  const drawn = new Set(room.occupied);
  return [
    ...pictureJointLabels(view, room, { font: SCREEN_FONT, drawn }),
    ...pictureLandmarkLabels(view, dimensionsOf(part).landmarks, room, { font: SCREEN_FONT, drawn }),
  ];
}

/** How landmarks are labelled, and what of the room is lines. */
interface LabelOptions {
  readonly font: LabelFont;
  readonly drawn: ReadonlySet<Box>;
  /** Labels beyond this many would be a thicket: the foremost have theirs. */
  readonly maxLabels?: number;
}

/** Landmarks with their signs and labels, in what room there is; the ends of an edge have none, a shoulder no sign. */
export function pictureLandmarkLabels(
  view: PictureView,
  landmarks: readonly Landmark[],
  room: OccupiedSpace,
  { font, drawn, maxLabels = landmarks.length }: LabelOptions,
): Item[] {
  const { part, at, path } = view;
  const marks = landmarks.filter(({ what }) => what !== 'end');
  const signs = marks.map(({ what, at: place }) =>
    what === 'shoulder' ? [] : [landmarkSign(what, at(place))],
  );
  const boxes = signs.flat().map((one) => inflate(pathBounds(one.path), WHITE_MM));
  room.occupied.push(...boxes);
  const things = marks.map((mark) => boundsOf(cornersOf(mark).map(at)));
  const named: LabelContext = {
    anchors: [...things, ...jointChordsOf(view).map(({ from, to }) => boundsOf([from, to]))],
    lines: flatten(path(finishedLine(part.shape))),
    drawn: new Set([...drawn, ...boxes]),
  };
  const label = (mark: Landmark, i: number): Item[] => {
    const naming = { anchor: things[i]!, competingAnchors: things, mayCrossLines: false };
    const text = `${mark.what} ${lengthWithoutUnit(mark.at.x, part.rule)}, ${offsetText(mark, (mm) => lengthWithoutUnit(mm, part.rule))}`;
    const led = placeLandmarkLabel(room, { text, face: font, named, naming, ...landmarkFoot(view, mark) });
    return led ? [...led.leader, centredWords(text, led.box, font)] : [];
  };
  return [...signs.flat(), ...marks.slice(0, maxLabels).flatMap(label)];
}

/** The corner of a landmark that lies outside, and which way its label stands off. */
function landmarkFoot(
  { part, at }: PictureView,
  mark: Landmark,
): { foot: Point; above: boolean; reach: number } {
  const above = isOnUpperEdge(part, mark);
  const foot = cornersOf(mark)
    .map(at)
    .reduce((a, b) => (b.y > a.y === above ? b : a));
  const reach = mark.what === 'shoulder' ? 0 : isGivenPoint(mark.what) ? RING_MM : TICK_MM;
  return { foot, above, reach: reach + WHITE_MM };
}

const jointChordsOf = ({ part, path }: PictureView): Chord[] =>
  part.joints.flatMap((joint) => jointLines(part, joint).flatMap((one) => flatten(path(one.path))));

/** Every joint by its number, as `show` tells it in words, and its name where that finds room. */
export function pictureJointLabels(
  view: PictureView,
  room: OccupiedSpace,
  { font, drawn }: LabelOptions,
): Item[] {
  const { part, path } = view;
  const lines = part.joints.map((joint) => flatten(path(labelAnchor(part, joint).path)));
  const anchors = lines.map((all) => boundsOf(all.flatMap(({ from, to }) => [from, to])));
  const named: LabelContext = { anchors, lines: flatten(path(finishedLine(part.shape))), drawn };
  return part.joints.flatMap((joint, i) => {
    for (const text of [`${i + 1} ${jointName(joint)}`, `${i + 1}`])
      for (const across of [false, true]) {
        const naming = { anchor: anchors[i]!, competingAnchors: anchors, mayCrossLines: across };
        const spots = candidatesBeside(lines[i]!, widthInFont(text, font) + 1, font.size * LINE_SPACING);
        const led = placeLabel(room, named, naming, spots);
        if (!led) continue;
        room.occupied.push(widenedInRow(led.box, font));
        return [...led.leader, centredWords(text, led.box, font)];
      }
    return [];
  });
}

/**
 * A comb without the teeth that stand by another: hundreds of short pieces have far more than a picture shows. Those kept
 * are less than twice the white apart wherever one is left out, so that their white covers it.
 */
function thinComb(comb: readonly DrawnTooth[]): DrawnTooth[] {
  const kept: DrawnTooth[] = [];
  for (const one of comb) {
    const last = kept.at(-1);
    const isBy = last && Math.max(distance(one.foot, last.foot), distance(one.tip, last.tip)) < WHITE_MM;
    if (!isBy) kept.push(one);
  }
  return kept;
}

/** What a comb covers: its outer line and some of its teeth. */
const combChords = (combs: readonly DrawnTooth[][]): Chord[] =>
  combs
    .map(thinComb)
    .flatMap((comb) => [
      ...comb.slice(1).map(({ tip }, i) => ({ from: comb[i]!.tip, to: tip })),
      ...comb.map(({ foot, tip }) => ({ from: foot, to: tip })),
    ]);

function landmarkSign(what: Landmark['what'], at: Point): Stroke {
  if (isGivenPoint(what)) return circle('mark', at, RING_MM);
  return polyline('mark', [
    { x: at.x, y: at.y - TICK_MM },
    { x: at.x, y: at.y + TICK_MM },
  ]);
}

const centredWords = (text: string, { left, right, bottom }: Box, { size }: LabelFont): Item =>
  words(text, { x: (left + right) / 2, y: bottom + size * 0.35 }, size, 'middle');

interface LandmarkLabel {
  readonly text: string;
  readonly face: LabelFont;
  readonly named: LabelContext;
  readonly naming: LabelTarget;
  readonly foot: Point;
  readonly above: boolean;
  /** How far off the foot a line to the label ends, mm. */
  readonly reach: number;
}

/** A label near its place, or with a line to it; left out where neither finds room. */
function placeLandmarkLabel(
  room: OccupiedSpace,
  { text, face, named, naming, foot, above, reach }: LandmarkLabel,
): LabelPlacement | undefined {
  const [width, height] = [widthInFont(text, face) + 2 * WHITE_MM, face.size * LINE_SPACING];
  const wished = {
    x: foot.x - width / 2,
    y: above ? foot.y + PREFERRED_DISTANCE_MM : foot.y - height - PREFERRED_DISTANCE_MM,
  };
  const tip = { x: foot.x, y: foot.y + (above ? reach : -reach) };
  const { left, right, bottom, top } = room.area;
  // On its own side of the line only: from the other one a line to it would cross that.
  const about: OccupiedSpace = {
    area: {
      left: Math.max(left, wished.x - MAX_LEADER_MM),
      right: Math.min(right, wished.x + MAX_LEADER_MM + width),
      bottom: Math.max(bottom, above ? foot.y : wished.y - MAX_LEADER_MM),
      top: Math.min(top, above ? wished.y + MAX_LEADER_MM + height : foot.y),
    },
    occupied: room.occupied,
  };
  const nearest = nearestFree(about, wished, width, height);
  if (!nearest) return undefined;
  const others = [...candidateBoxes(about, width, height)].toSorted(
    (a, b) => squaredDistance(wished, a) - squaredDistance(wished, b),
  );
  const led = placeLabel(
    room,
    named,
    naming,
    [nearest, ...others].map((box) => ({ box, tip, normal: { x: 0, y: above ? 1 : -1 } })),
  );
  if (led) room.occupied.push(widenedInRow(led.box, face));
  return led;
}

/** Half the type more at either side, lest two labels in a row be read as one. */
const widenedInRow = (box: Box, { size }: LabelFont): Box => ({
  ...box,
  left: box.left - size / 2,
  right: box.right + size / 2,
});
