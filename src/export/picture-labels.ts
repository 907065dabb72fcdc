import { pathBox } from '../curves/box.ts';
import type { Box } from '../curves/curve.ts';
import { distance, type Point } from '../curves/point.ts';
import { JOIN_MM } from '../curves/tolerance.ts';
import type { Joint } from '../job/job.ts';
import { finishedLine } from '../part/finished-line.ts';
import type { Landmark, Part } from '../part/part.ts';
import { type Chord, chordsOf, passes } from '../tiling/chords.ts';
import { circle, type Item, polyline, words } from './drawing.ts';
import { jointLines, labelAnchor } from './joint-marks.ts';
import { jointName } from './joint-words.ts';
import type { DrawnTooth, PictureView } from './picture-view.ts';
import { nearestFree, type Room, strips, takeBeside } from './place.ts';
import { bare, settingOut, stationAt } from './setting-out.ts';
import { LEADING, textWidth } from './type.ts';

const LABEL_MM = 3;
/** White round a label, mm. */
const WHITE_MM = 0.8;
/** Half the tick at an apex or a join, and the ring round a pin. */
const TICK_MM = 2.5;
const RING_MM = 1.2;
/** How far off its place a label would stand, mm. */
const ASIDE_MM = 3;
/** A label farther from its place than this gets a line to it. */
const NEAR_MM = 9;

/** Apexes, pins and joins with their stations and offsets, where they cover neither line nor comb. */
export function landmarkItems(view: PictureView, combs: readonly DrawnTooth[][], area: Room['area']): Item[] {
  const { part, path } = view;
  const lines = path([...finishedLine(part.shape), ...part.saw]);
  const room: Room = {
    area,
    taken: strips([...chordsOf(lines), ...edgesOf(combs), ...jointsOf(view)], WHITE_MM),
  };
  return [...jointLabels(view, room), ...labelledMarks(view, settingOut(part).landmarks, room)];
}

/** Landmarks with their signs and labels, in what room there is; the ends of an edge have none. */
export function labelledMarks(
  { part, at }: PictureView,
  landmarks: readonly Landmark[],
  room: Room,
  size = LABEL_MM,
): Item[] {
  const marks = landmarks.filter(({ what }) => what !== 'end');
  const labels: Box[] = [];
  return marks.flatMap((mark) => {
    const foot = at(mark.at);
    const text = `${mark.what} ${bare(mark.at.x, part.rule)}, ${bare(mark.at.y, part.rule)}`;
    const label = { text, size, above: isUpper(part, mark.at) };
    return [...sign(mark.what, foot), ...labelItems(room, foot, label, labels)];
  });
}

const jointsOf = ({ part, path }: PictureView): Chord[] =>
  part.joints.flatMap((joint) => jointLines(part, joint).flatMap((one) => chordsOf(path(one.path))));

/** Every joint by its number, as `show` tells it in words, and its name where that finds room. */
export const jointLabels = (view: PictureView, room: Room, size = LABEL_MM): Item[] =>
  view.part.joints.flatMap((joint, i) => jointLabel(view, room, { joint, number: i + 1, size }));

interface Numbered {
  readonly joint: Joint;
  readonly number: number;
  readonly size: number;
}

function jointLabel({ part, path }: PictureView, room: Room, { joint, number, size }: Numbered): Item[] {
  const beside = pathBox(path(labelAnchor(part, joint).path));
  for (const text of [`${number} ${jointName(joint)}`, `${number}`]) {
    const box = takeBeside(room, beside, textWidth(text, size) + 1, size * LEADING);
    if (box)
      return [words(text, { x: (box.left + box.right) / 2, y: box.bottom + size * 0.35 }, size, 'middle')];
  }
  return [];
}

/** What a comb covers: its outer line and some of its teeth. */
const edgesOf = (combs: readonly DrawnTooth[][]): Chord[] =>
  combs.flatMap((comb) => [
    ...comb.slice(1).map(({ tip }, i) => ({ from: comb[i]!.tip, to: tip })),
    ...comb.map(({ foot, tip }) => ({ from: foot, to: tip })),
  ]);

function sign(what: Landmark['what'], at: Point): Item[] {
  if (what === 'pin') return [circle('mark', at, RING_MM)];
  const tick = polyline('mark', [
    { x: at.x, y: at.y - TICK_MM },
    { x: at.x, y: at.y + TICK_MM },
  ]);
  return [tick];
}

/** Whether another edge lies below a place: its label then stands above, outside the part. */
const isUpper = (part: Part, { x, y }: Point): boolean =>
  stationAt(part, x).offsets.some((offset) => offset !== undefined && offset < y - JOIN_MM);

interface Label {
  readonly text: string;
  readonly size: number;
  readonly above: boolean;
}

/** A label near its place; left out where none is free, or where its line would cross another label. */
function labelItems(room: Room, foot: Point, { text, size, above }: Label, labels: Box[]): Item[] {
  const [width, height] = [textWidth(text, size) + 2 * WHITE_MM, size * LEADING];
  const wished = { x: foot.x - width / 2, y: above ? foot.y + ASIDE_MM : foot.y - height - ASIDE_MM };
  const box = nearestFree(room, wished, width, height);
  if (!box) return [];
  const at = { x: (box.left + box.right) / 2, y: box.bottom + size * 0.35 };
  const edge = {
    x: Math.min(Math.max(foot.x, box.left), box.right),
    y: foot.y > box.top ? box.top : box.bottom,
  };
  const lead = { from: edge, to: foot };
  const led = distance(edge, foot) > NEAR_MM;
  if (led && labels.some((label) => passes(lead, label))) return [];
  room.taken.push(box, ...(led ? strips([lead], WHITE_MM) : []));
  labels.push(box);
  return [...(led ? [polyline('rule', [edge, foot])] : []), words(text, at, size, 'middle')];
}
