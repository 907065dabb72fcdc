import { type Box, boxOf, grown, pathBox } from '../../curves/geometry/bounds.ts';
import { type Chord, chordsOf } from '../../curves/geometry/flatten.ts';
import { distance, type Point } from '../../curves/geometry/point.ts';
import { finishedLine } from '../../part/finished-line.ts';
import { cornersOf, isOnUpper, isPinned } from '../../part/landmarks.ts';
import type { Landmark } from '../../part/part.ts';
import { jointName } from '../cover/joint-words.ts';
import { bare, offsetWords, settingOut } from '../drawing/dimensions.ts';
import { circle, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { ANY_FONT, LEADING, textWidth } from '../drawing/text-width.ts';
import type { DrawnTooth, PictureView } from '../pictures/picture-view.ts';
import { jointLines, labelAnchor } from '../sheets/joint-marks.ts';
import { farFrom, nearestFree, type Room, spotsIn, strips } from './free-space.ts';
import { type Led, type Named, type Naming, spotsBeside, takeNamed } from './place-labels.ts';

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
/** How far off its place a label would stand, mm, and how far at most with a line to it. */
const ASIDE_MM = 3;
const FAR_MM = 30;

/** Apexes, nails, pins and joins with their stations and offsets, where they cover neither line nor comb. */
export function landmarkItems(view: PictureView, combs: readonly DrawnTooth[][], area: Room['area']): Item[] {
  const { part, path } = view;
  const lines = chordsOf(path([...finishedLine(part.shape), ...part.saw]));
  const room: Room = { area, taken: strips([...lines, ...edgesOf(combs), ...jointsOf(view)], WHITE_MM) };
  const drawn = new Set(room.taken);
  return [
    ...jointLabels(view, room, { face: SCREEN, drawn }),
    ...labelledMarks(view, settingOut(part).landmarks, room, { face: SCREEN, drawn }),
  ];
}

/** How landmarks are labelled, and what of the room is lines. */
interface Labelling {
  readonly face: Face;
  readonly drawn: ReadonlySet<Box>;
  /** Labels beyond this many would be a thicket: the foremost have theirs. */
  readonly most?: number;
}

/** Landmarks with their signs and labels, in what room there is; the ends of an edge have none, a shoulder no sign. */
export function labelledMarks(
  view: PictureView,
  landmarks: readonly Landmark[],
  room: Room,
  { face, drawn, most = landmarks.length }: Labelling,
): Item[] {
  const { part, at, path } = view;
  const marks = landmarks.filter(({ what }) => what !== 'end');
  const signs = marks.map(({ what, at: place }) => (what === 'shoulder' ? [] : [sign(what, at(place))]));
  const boxes = signs.flat().map((one) => grown(pathBox(one.path), WHITE_MM));
  room.taken.push(...boxes);
  const things = marks.map((mark) => boxOf(cornersOf(mark).map(at)));
  const named: Named = {
    things: [...things, ...jointsOf(view).map(({ from, to }) => boxOf([from, to]))],
    lines: chordsOf(path(finishedLine(part.shape))),
    drawn: new Set([...drawn, ...boxes]),
  };
  const label = (mark: Landmark, i: number): Item[] => {
    const naming = { own: things[i]!, rivals: things, across: false };
    const text = `${mark.what} ${bare(mark.at.x, part.rule)}, ${offsetWords(mark, (mm) => bare(mm, part.rule))}`;
    const led = labelOf(room, { text, face, named, naming, ...spotOf(view, mark) });
    return led ? [...led.lead, centred(text, led.box, face)] : [];
  };
  return [...signs.flat(), ...marks.slice(0, most).flatMap(label)];
}

/** The corner of a landmark that lies outside, and which way its label stands off. */
function spotOf({ part, at }: PictureView, mark: Landmark): { foot: Point; above: boolean; reach: number } {
  const above = isOnUpper(part, mark);
  const foot = cornersOf(mark)
    .map(at)
    .reduce((a, b) => (b.y > a.y === above ? b : a));
  const reach = mark.what === 'shoulder' ? 0 : isPinned(mark.what) ? RING_MM : TICK_MM;
  return { foot, above, reach: reach + WHITE_MM };
}

const jointsOf = ({ part, path }: PictureView): Chord[] =>
  part.joints.flatMap((joint) => jointLines(part, joint).flatMap((one) => chordsOf(path(one.path))));

/** Every joint by its number, as `show` tells it in words, and its name where that finds room. */
export function jointLabels(view: PictureView, room: Room, { face, drawn }: Labelling): Item[] {
  const { part, path } = view;
  const lines = part.joints.map((joint) => chordsOf(path(labelAnchor(part, joint).path)));
  const things = lines.map((all) => boxOf(all.flatMap(({ from, to }) => [from, to])));
  const named: Named = { things, lines: chordsOf(path(finishedLine(part.shape))), drawn };
  return part.joints.flatMap((joint, i) => {
    for (const text of [`${i + 1} ${jointName(joint)}`, `${i + 1}`])
      for (const across of [false, true]) {
        const naming = { own: things[i]!, rivals: things, across };
        const spots = spotsBeside(lines[i]!, widthOf(text, face) + 1, face.size * LEADING);
        const led = takeNamed(room, named, naming, spots);
        if (!led) continue;
        room.taken.push(apartInARow(led.box, face));
        return [...led.lead, centred(text, led.box, face)];
      }
    return [];
  });
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
  readonly named: Named;
  readonly naming: Naming;
  readonly foot: Point;
  readonly above: boolean;
  /** How far off the foot a line to the label ends, mm. */
  readonly reach: number;
}

/** A label near its place, or with a line to it; left out where neither finds room. */
function labelOf(room: Room, { text, face, named, naming, foot, above, reach }: Label): Led | undefined {
  const [width, height] = [widthOf(text, face) + 2 * WHITE_MM, face.size * LEADING];
  const wished = { x: foot.x - width / 2, y: above ? foot.y + ASIDE_MM : foot.y - height - ASIDE_MM };
  const tip = { x: foot.x, y: foot.y + (above ? reach : -reach) };
  const { left, right, bottom, top } = room.area;
  // On its own side of the line only: from the other one a line to it would cross that.
  const about: Room = {
    area: {
      left: Math.max(left, wished.x - FAR_MM),
      right: Math.min(right, wished.x + FAR_MM + width),
      bottom: Math.max(bottom, above ? foot.y : wished.y - FAR_MM),
      top: Math.min(top, above ? wished.y + FAR_MM + height : foot.y),
    },
    taken: room.taken,
  };
  const nearest = nearestFree(about, wished, width, height);
  if (!nearest) return undefined;
  const others = [...spotsIn(about, width, height)].toSorted(
    (a, b) => farFrom(wished, a) - farFrom(wished, b),
  );
  const led = takeNamed(
    room,
    named,
    naming,
    [nearest, ...others].map((box) => ({ box, tip, off: { x: 0, y: above ? 1 : -1 } })),
  );
  if (led) room.taken.push(apartInARow(led.box, face));
  return led;
}

/** Half the type more at either side, lest two labels in a row be read as one. */
const apartInARow = (box: Box, { size }: Face): Box => ({
  ...box,
  left: box.left - size / 2,
  right: box.right + size / 2,
});
