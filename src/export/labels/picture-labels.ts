import { type Box, boundsOf, inflate, pathBounds } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten } from '../../curves/geometry/flatten.ts';
import { distance, type Point, point } from '../../curves/geometry/point.ts';
import { cornersOf, isGivenPoint, isOnUpperEdge } from '../../part/landmarks.ts';
import type { Landmark } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { neighbors } from '../../units/checked.ts';
import { jointName } from '../cover/joinery-words.ts';
import { dimensionsOf, lengthWithoutUnit, offsetText } from '../drawing/dimensions.ts';
import { circle, type Item, type Stroke, tick } from '../drawing/drawing.ts';
import { jointLines } from '../drawing/part-view.ts';
import { LINE_SPACING } from '../drawing/text-width.ts';
import type { DrawnTooth, PictureView } from '../pictures/picture-view.ts';
import { labelAnchor } from '../sheets/joint-marks.ts';
import { type Block, boxesAlongLines, candidateBoxes, nearestFree, squaredDistance } from './free-space.ts';
import type { Label, LabelFont, LabelSpace } from './place-labels.ts';
import { candidatesBeside, placeLabels, SCREEN_FONT, textBlock } from './place-labels.ts';

const WHITE_MM = 0.8;
/** Half a tick, and the radius of the ring round a nail or point. */
const TICK_MM = 2.5;
const RING_MM = 1.2;
/** From a landmark to its label; the longest leader. */
const PREFERRED_DISTANCE_MM = 3;
const MAX_LEADER_MM = 30;

export function pictureLabels(view: PictureView, combs: readonly DrawnTooth[][], area: Box): Item[] {
  const { part, path } = view;
  const lines = flatten(path([...finishedLine(part.shape), ...part.saw]));
  const joints = part.joints.flatMap((joint) => jointChordsOf(view, joint));
  const space = pictureSpace(view, area, [...lines, ...combChords(combs), ...joints]);
  return [
    ...pictureJointLabels(view, space, SCREEN_FONT),
    ...pictureLandmarkLabels(view, dimensionsOf(part).landmarks, space, SCREEN_FONT),
  ];
}

export function pictureSpace({ part, path }: PictureView, area: Box, drawn: readonly Chord[]): LabelSpace {
  const occupied = boxesAlongLines(drawn, WHITE_MM);
  const lines = flatten(path(finishedLine(part.shape)));
  return { area, occupied, anchors: [], lines, crossable: new Set(occupied) };
}

/** One line of words with white beside it, half the type, lest two labels in a row read as one. */
const lineBlock = (text: string, font: LabelFont, padding: number) => ({
  ...textBlock([text], { ...font, padding, baseline: LINE_SPACING - 0.35 }),
  white: { x: font.size / 2, y: 0 },
});

/** Landmarks with their signs, and the labels of the first `maxLabels` that find room; ends have neither. */
export function pictureLandmarkLabels(
  view: PictureView,
  landmarks: readonly Landmark[],
  space: LabelSpace,
  font: LabelFont,
  maxLabels = landmarks.length,
): Item[] {
  const { part, at } = view;
  const marks = landmarks.filter(({ what }) => what !== 'end');
  const signs = marks.flatMap(({ what, at: place }) =>
    what === 'shoulder' ? [] : [landmarkSign(what, at(place))],
  );
  const boxes = signs.map(({ path }) => inflate(pathBounds(path), WHITE_MM));
  space.occupied.push(...boxes);
  const named = marks.map((mark) => ({ mark, anchor: boundsOf(cornersOf(mark).map(at)) }));
  const anchors = named.map(({ anchor }) => anchor);
  const joints = part.joints.flatMap((joint) => jointChordsOf(view, joint));
  const labelSpace: LabelSpace = {
    ...space,
    anchors: [...anchors, ...joints.map(({ from, to }) => boundsOf([from, to]))],
    crossable: new Set([...space.crossable, ...boxes]),
  };
  const show = (mm: number): string => lengthWithoutUnit(mm, part.rule);
  const labels = named.slice(0, maxLabels).map(({ mark, anchor }): Label => {
    const text = `${mark.what} ${show(mark.at.x)}, ${offsetText(mark, show)}`;
    const blocks = [lineBlock(text, font, 2 * WHITE_MM)];
    return { anchor, competing: anchors, blocks, candidates: candidatesNear(view, labelSpace, mark) };
  });
  return [...signs, ...placeLabels(labelSpace, labels)];
}

/** Places on the outer side of a landmark, the nearest first: from the other side a leader would cross the line. */
const candidatesNear =
  ({ part, at }: PictureView, space: LabelSpace, mark: Landmark) =>
  ({ width, height }: Block) => {
    const above = isOnUpperEdge(part, mark);
    const foot = cornersOf(mark)
      .map(at)
      .reduce((a, b) => (b.y > a.y === above ? b : a));
    const off = above ? PREFERRED_DISTANCE_MM : -height - PREFERRED_DISTANCE_MM;
    const wished = point(foot.x - width / 2, foot.y + off);
    const { left, right, bottom, top } = space.area;
    const area = {
      left: Math.max(left, wished.x - MAX_LEADER_MM),
      right: Math.min(right, wished.x + MAX_LEADER_MM + width),
      bottom: Math.max(bottom, above ? foot.y : wished.y - MAX_LEADER_MM),
      top: Math.min(top, above ? wished.y + MAX_LEADER_MM + height : foot.y),
    };
    const around = { area, occupied: space.occupied };
    const nearest = nearestFree(around, wished, width, height);
    if (!nearest) return [];
    const others = [...candidateBoxes(around, width, height)].toSorted(
      (a, b) => squaredDistance(wished, a) - squaredDistance(wished, b),
    );
    const reach = (mark.what === 'shoulder' ? 0 : isGivenPoint(mark.what) ? RING_MM : TICK_MM) + WHITE_MM;
    const tip = { x: foot.x, y: foot.y + (above ? reach : -reach) };
    return [nearest, ...others].map((box) => ({ box, tip, normal: { x: 0, y: above ? 1 : -1 } }));
  };

const jointChordsOf = ({ part, path }: PictureView, joint: PictureView['part']['joints'][number]): Chord[] =>
  jointLines(part, joint).flatMap((one) => flatten(path(one.path)));

/** Every number, with its name where there is room. */
export function pictureJointLabels(view: PictureView, space: LabelSpace, font: LabelFont): Item[] {
  const { part, path } = view;
  const joints = part.joints.map((joint) => {
    const lines = flatten(path(labelAnchor(part, joint).path));
    return { joint, lines, anchor: boundsOf(lines.flatMap(({ from, to }) => [from, to])) };
  });
  const anchors = joints.map(({ anchor }) => anchor);
  const labels = joints.map(({ joint, lines, anchor }, i): Label => {
    const texts = [`${i + 1} ${jointName(joint)}`, `${i + 1}`];
    const blocks = texts.flatMap((text) =>
      [false, true].map((mayCrossLines) => ({ ...lineBlock(text, font, 1), mayCrossLines })),
    );
    return { anchor, competing: anchors, blocks, candidates: candidatesBeside(lines) };
  });
  return placeLabels({ ...space, anchors }, labels);
}

/** Hundreds of short pieces have more teeth than a picture shows; those that stay cover the rest with their white. */
function thinComb(comb: readonly DrawnTooth[]): DrawnTooth[] {
  const thin: DrawnTooth[] = [];
  for (const one of comb) {
    const last = thin.at(-1);
    const isClose = last && Math.max(distance(one.foot, last.foot), distance(one.tip, last.tip)) < WHITE_MM;
    if (!isClose) thin.push(one);
  }
  return thin;
}

const combChords = (combs: readonly DrawnTooth[][]): Chord[] =>
  combs.map(thinComb).flatMap((comb) => {
    const tips = neighbors(comb).map(([a, b]) => ({ from: a.tip, to: b.tip }));
    return [...tips, ...comb.map(({ foot, tip }) => ({ from: foot, to: tip }))];
  });

const landmarkSign = (what: Landmark['what'], at: Point): Stroke =>
  isGivenPoint(what) ? circle('mark', at, RING_MM) : tick('mark', at, 0, TICK_MM);
