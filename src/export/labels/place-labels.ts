import { type Box, boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import type { Chord } from '../../curves/geometry/flatten.ts';
import { chordsIntersect, closestPointOnChord, segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import { distance, dot, type Point, subtract } from '../../curves/geometry/point.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, WIDEST_FONT_FACTOR } from '../drawing/text-width.ts';
import type { Block, OccupiedSpace } from './free-space.ts';
import { BESIDE_MM, boxesAlongLines, boxesBeside, centreOf, isFree } from './free-space.ts';

export const MAX_DISTANCE_WITHOUT_LEADER_MM = 6;
/** A label this much nearer, mm, to another anchor is taken for that one's. */
const MISTAKEN_MARGIN_MM = 0.5;
/** White between a leader and other anchors, and between a leader and words, mm. */
const LEADER_WHITE_MM = 0.8;
/** Free places that no leader reaches, after which a label is left out: the drawing is crowded there. */
const MAX_LEADERS_TRIED = 40;
/** A leader leans at most 60° off the normal of the part's line: a flatter one reads as that line. */
const MIN_LEADER_COSINE = 0.5;
const DISTANCES_WITH_LEADER_MM = [...BESIDE_MM, 20, 28];

export interface LabelFont {
  readonly size: number;
  readonly widthFactor: number;
}

export const SCREEN_FONT: LabelFont = { size: 3, widthFactor: WIDEST_FONT_FACTOR };

export const widthInFont = (text: string, { size, widthFactor }: LabelFont): number =>
  textWidth(text, size) * widthFactor;

/** How lines of words fill their box. Shares are of the type size. */
export interface LabelStyle extends LabelFont {
  readonly padding: number;
  readonly baseline: number;
  /** Height of the box for each line, a share; LINE_SPACING where absent. */
  readonly lineHeight?: number;
}

export const SHEET_LABEL: LabelStyle = { size: 3.2, widthFactor: 1, padding: 1, baseline: 0.85 };

export const textBlock = (lines: readonly string[], style: LabelStyle): Block => ({
  width: Math.max(...lines.map((line) => widthInFont(line, style))) + style.padding,
  height: lines.length * (style.lineHeight ?? LINE_SPACING) * style.size,
  draw: (box) =>
    lines.map((line, i) => {
      const y = box.top - style.size * (style.baseline + LINE_SPACING * i);
      return words(line, { x: centreOf(box).x, y }, style.size, 'middle');
    }),
});

export interface LabelSpace extends OccupiedSpace {
  readonly anchors: readonly Box[];
  /** The part's lines: a label and its anchor lie on the same side of them. */
  readonly lines: readonly Chord[];
  /** The occupied boxes that hold lines: a leader may cross these and no others. */
  readonly crossable: ReadonlySet<Box>;
}

export interface LabelCandidate {
  readonly box: Box;
  /** Where a leader ends, short of the anchor; absent where a label needs none. */
  readonly tip?: Point;
  readonly normal?: Point;
}

export interface LabelBlock extends Block {
  readonly mayCrossLines?: boolean;
  readonly white?: { readonly x: number; readonly y: number };
}

export interface Label {
  readonly anchor: Box;
  readonly competing: readonly Box[];
  /** Whether another anchor is the same place; the anchor itself is. */
  readonly isSame?: (other: Box) => boolean;
  readonly blocks: readonly LabelBlock[];
  /** Only beside its anchor, or not at all. */
  readonly withoutLeader?: true;
  readonly candidates: (block: Block) => readonly LabelCandidate[];
}

/** Draws each label, with a leader where it needs one, at the first place where it covers nothing, or leaves it out. */
export const placeLabels = (space: LabelSpace, labels: readonly Label[]): Item[] =>
  labels.flatMap((label) => placeLabel(space, label));

function placeLabel(space: LabelSpace, label: Label): Item[] {
  const isOther = (other: Box): boolean => other !== label.anchor && !label.isSame?.(other);
  const competing = label.competing.filter(isOther);
  const others = space.anchors.filter(isOther);
  for (const block of label.blocks) {
    const candidates = label.candidates(block);
    const near = candidates.find((one) => isClearWithoutLeader(space, label.anchor, competing, one));
    if (near) return reserve(space, block, near.box);
    if (label.withoutLeader) continue;
    let tried = 0;
    for (const { box, tip, normal } of candidates) {
      if (!tip || tried >= MAX_LEADERS_TRIED) break;
      const leader = leaderLine(box, tip);
      if (!isLeaderSteep(leader, normal) || !isFree(space, box)) continue;
      tried++;
      if (!isLeaderClear(space, others, leader, block.mayCrossLines ?? false)) continue;
      const items = reserve(space, block, box);
      space.occupied.push(...boxesAlongLines([leader], LEADER_WHITE_MM));
      return [polyline('lead', [leader.from, leader.to]), ...items];
    }
  }
  return [];
}

function reserve({ occupied }: OccupiedSpace, { white, draw }: LabelBlock, box: Box): Item[] {
  const { left, right, bottom, top } = box;
  const { x, y } = white ?? { x: 0, y: 0 };
  occupied.push({ left: left - x, right: right + x, bottom: bottom - y, top: top + y });
  return draw(box);
}

// A crowded drawing has thousands of candidates, so the cheap questions come first.
const isClearWithoutLeader = (
  space: LabelSpace,
  anchor: Box,
  competing: readonly Box[],
  { box, tip }: LabelCandidate,
): boolean =>
  (!tip || isUnambiguous(box, tip, anchor, competing)) &&
  isFree(space, box) &&
  !(tip && crossesAny(leaderLine(box, tip), space.lines));

const leaderLine = ({ left, right, bottom, top }: Box, tip: Point): Chord => ({
  from: { x: Math.min(Math.max(tip.x, left), right), y: Math.min(Math.max(tip.y, bottom), top) },
  to: tip,
});

function isUnambiguous(box: Box, tip: Point, anchor: Box, competing: readonly Box[]): boolean {
  const { from, to } = leaderLine(box, tip);
  if (distance(from, to) > MAX_DISTANCE_WITHOUT_LEADER_MM) return false;
  const middle = boundsOf([centreOf(box)]);
  const mine = Math.min(distance(from, to), boxDistance(box, anchor));
  const mineFromMiddle = boxDistance(middle, anchor);
  return !competing.some(
    (other) =>
      boxDistance(box, other) < mine - MISTAKEN_MARGIN_MM || boxDistance(middle, other) < mineFromMiddle,
  );
}

const isLeaderSteep = ({ from, to }: Chord, normal: Point | undefined): boolean =>
  !normal || dot(subtract(from, to), normal) >= MIN_LEADER_COSINE * distance(from, to);

function boxDistance(a: Box, b: Box): number {
  const across = Math.max(0, a.left - b.right, b.left - a.right);
  return Math.hypot(across, Math.max(0, a.bottom - b.top, b.bottom - a.top));
}

const isLeaderClear = (
  { occupied, lines, crossable }: LabelSpace,
  others: readonly Box[],
  leader: Chord,
  mayCrossLines: boolean,
): boolean =>
  (mayCrossLines || !crossesAny(leader, lines)) &&
  !others.some((other) => segmentIntersectsBox(leader, inflate(other, LEADER_WHITE_MM))) &&
  !occupied.some((one) => !crossable.has(one) && segmentIntersectsBox(leader, one));

function crossesAny(leader: Chord, lines: readonly Chord[]): boolean {
  const box = boundsOf([leader.from, leader.to]);
  return lines.some((line) => segmentIntersectsBox(line, box) && chordsIntersect(leader, line));
}

export const candidatesBeside =
  (lines: readonly Chord[]) =>
  ({ width, height }: Block): LabelCandidate[] => {
    const around = boundsOf(lines.flatMap(({ from, to }) => [from, to]));
    return boxesBeside(around, width, height, DISTANCES_WITH_LEADER_MM).map((box) => {
      const middle = centreOf(box);
      const feet = lines.map((line) => closestPointOnChord(line, middle));
      return { box, tip: feet.reduce((a, b) => (distance(b, middle) < distance(a, middle) ? b : a)) };
    });
  };
