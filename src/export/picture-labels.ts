import { type Box, grown, pathBox } from '../curves/box.ts';
import { type Chord, chordsOf, passes } from '../curves/chords.ts';
import { distance, type Point } from '../curves/point.ts';
import type { Joint } from '../job/job.ts';
import { finishedLine } from '../part/finished-line.ts';
import { cornersOf, isOnUpper, isPinned } from '../part/landmarks.ts';
import type { Landmark } from '../part/part.ts';
import { circle, type Item, polyline, type Stroke, words } from './drawing.ts';
import { jointLines, labelAnchor } from './joint-marks.ts';
import { jointName } from './joint-words.ts';
import type { DrawnTooth, PictureView } from './picture-view.ts';
import { nearestFree, type Room, strips, takeBeside } from './place.ts';
import { bare, offsetWords, settingOut } from './setting-out.ts';
import { ANY_FONT, LEADING, textWidth } from './type.ts';

/** What labels are set in: the size of their type, mm, and how much wider than in our own font they may run. */
export interface Face {
  readonly size: number;
  readonly wider: number;
}

/** A picture is an SVG, shown in whatever font its reader has. */
export const SCREEN: Face = { size: 3, wider: ANY_FONT };
/** How wide words may run, mm. */
export const widthOf = (text: string, { size, wider }: Face): number => textWidth(text, size) * wider;

/** White round a label, mm. */
const WHITE_MM = 0.8;
/** Half the tick at an apex or a join, and the ring round a nail or pin. */
const TICK_MM = 2.5;
const RING_MM = 1.2;
/** How far off its place a label would stand, mm. */
const ASIDE_MM = 3;
/** A label farther from its place than this gets a line to it. */
const NEAR_MM = 9;

/** Apexes, nails, pins and joins with their stations and offsets, where they cover neither line nor comb. */
export function landmarkItems(view: PictureView, combs: readonly DrawnTooth[][], area: Room['area']): Item[] {
  const { part, path } = view;
  const lines = path([...finishedLine(part.shape), ...part.saw]);
  const room: Room = {
    area,
    taken: strips([...chordsOf(lines), ...edgesOf(combs), ...jointsOf(view)], WHITE_MM),
  };
  return [
    ...jointLabels(view, room, SCREEN),
    ...labelledMarks(view, settingOut(part).landmarks, room, SCREEN),
  ];
}

/** Landmarks with their signs and labels, in what room there is; the ends of an edge have none, a shoulder no sign. */
export function labelledMarks(
  { part, at }: PictureView,
  landmarks: readonly Landmark[],
  room: Room,
  face: Face,
): Item[] {
  const marks = landmarks.filter(({ what }) => what !== 'end');
  const signs = marks.map(({ what, at: place }) => (what === 'shoulder' ? [] : [sign(what, at(place))]));
  room.taken.push(...signs.flat().map(({ path }) => grown(pathBox(path), WHITE_MM)));
  const labels: Box[] = [];
  return marks.flatMap((mark, i) => {
    const above = isOnUpper(part, mark);
    const outer = cornersOf(mark).reduce((a, b) => (b.y > a.y === above ? b : a));
    const show = (mm: number): string => bare(mm, part.rule);
    const text = `${mark.what} ${show(mark.at.x)}, ${offsetWords(mark, show)}`;
    const label = { text, face, above };
    return [...signs[i]!, ...labelItems(room, at(outer), label, labels)];
  });
}

const jointsOf = ({ part, path }: PictureView): Chord[] =>
  part.joints.flatMap((joint) => jointLines(part, joint).flatMap((one) => chordsOf(path(one.path))));

/** Every joint by its number, as `show` tells it in words, and its name where that finds room. */
export const jointLabels = (view: PictureView, room: Room, face: Face): Item[] =>
  view.part.joints.flatMap((joint, i) => jointLabel(view, room, { joint, number: i + 1, face }));

interface Numbered {
  readonly joint: Joint;
  readonly number: number;
  readonly face: Face;
}

function jointLabel({ part, path }: PictureView, room: Room, { joint, number, face }: Numbered): Item[] {
  const beside = pathBox(path(labelAnchor(part, joint).path));
  for (const text of [`${number} ${jointName(joint)}`, `${number}`]) {
    const box = takeBeside(room, beside, widthOf(text, face) + 1, face.size * LEADING);
    if (box) return [centred(text, box, face)];
  }
  return [];
}

/**
 * A comb without the teeth that stand by another: hundreds of short pieces have far more than a picture shows. Those kept
 * are less than twice the white apart wherever one is left out, so that their white covers it.
 */
function thinned(comb: readonly DrawnTooth[]): DrawnTooth[] {
  const kept: DrawnTooth[] = [];
  for (const one of comb) {
    const last = kept.at(-1);
    const isBy = last && Math.max(distance(one.foot, last.foot), distance(one.tip, last.tip)) < WHITE_MM;
    if (!isBy) kept.push(one);
  }
  return kept;
}

/** What a comb covers: its outer line and some of its teeth. */
const edgesOf = (combs: readonly DrawnTooth[][]): Chord[] =>
  combs
    .map(thinned)
    .flatMap((comb) => [
      ...comb.slice(1).map(({ tip }, i) => ({ from: comb[i]!.tip, to: tip })),
      ...comb.map(({ foot, tip }) => ({ from: foot, to: tip })),
    ]);

function sign(what: Landmark['what'], at: Point): Stroke {
  if (isPinned(what)) return circle('mark', at, RING_MM);
  return polyline('mark', [
    { x: at.x, y: at.y - TICK_MM },
    { x: at.x, y: at.y + TICK_MM },
  ]);
}

const centred = (text: string, { left, right, bottom }: Box, { size }: Face): Item =>
  words(text, { x: (left + right) / 2, y: bottom + size * 0.35 }, size, 'middle');

interface Label {
  readonly text: string;
  readonly face: Face;
  readonly above: boolean;
}

/** A label near its place; left out where none is free, or where its line would cross another label. */
function labelItems(room: Room, foot: Point, { text, face, above }: Label, labels: Box[]): Item[] {
  const [width, height] = [widthOf(text, face) + 2 * WHITE_MM, face.size * LEADING];
  const wished = { x: foot.x - width / 2, y: above ? foot.y + ASIDE_MM : foot.y - height - ASIDE_MM };
  const box = nearestFree(room, wished, width, height);
  if (!box) return [];
  const edge = {
    x: Math.min(Math.max(foot.x, box.left), box.right),
    y: foot.y > box.top ? box.top : box.bottom,
  };
  const lead = { from: edge, to: foot };
  const led = distance(edge, foot) > NEAR_MM;
  if (led && labels.some((label) => passes(lead, label))) return [];
  // Half the type more, lest two labels in a row be read as one.
  const apart = { ...box, left: box.left - face.size / 2, right: box.right + face.size / 2 };
  room.taken.push(apart, ...(led ? strips([lead], WHITE_MM) : []));
  labels.push(box);
  return [...(led ? [polyline('rule', [edge, foot])] : []), centred(text, box, face)];
}
