import { type Box, boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import {
  type Chord,
  chordsIntersect,
  closestPointOnChord,
  segmentIntersectsBox,
} from '../../curves/geometry/flatten.ts';
import { distance, dot, type Point, subtract } from '../../curves/geometry/point.ts';
import { polyline, type Stroke } from '../drawing/drawing.ts';
import { BESIDE_MM, boxesAlongLines, boxesBeside, isFree, type OccupiedSpace } from './free-space.ts';

/** A label farther than this, mm, from what it names has a line to it: two lines of its own type. */
export const MAX_DISTANCE_WITHOUT_LEADER_MM = 6;
/** A label so much nearer, mm, to what another label names would be read as that one's. */
const MISTAKEN_MARGIN_MM = 0.5;
/** How far a line to a label keeps off what another label names, and other words off that line, mm. */
const LEADER_WHITE_MM = 0.8;

/** Free places from which no line gets through, after which a label is left out: all about it is crowded. */
const MAX_LEADERS_TRIED = 40;

/** Where a label may stand, and where a line to it would end: short of what it names. */
export interface LabelCandidate {
  readonly box: Box;
  readonly tip: Point;
  /** Square off the part's line there, a unit vector: a line to a label that ran along that one would be taken for it. */
  readonly normal?: Point;
}

/** A line to a label leans at most this far off the square to the part's line: 60°, as the part of it that runs square. */
const MIN_LEADER_COSINE = 0.5;

/** How far off a joint its label may stand, mm: with a line to it farther than without. */
const DISTANCES_WITH_LEADER_MM = [...BESIDE_MM, 20, 28];

/** Where a label may stand beside a joint's lines or the like, close before far. */
export function candidatesBeside(lines: readonly Chord[], width: number, height: number): LabelCandidate[] {
  const around = boundsOf(lines.flatMap(({ from, to }) => [from, to]));
  return boxesBeside(around, width, height, DISTANCES_WITH_LEADER_MM).map((box) => {
    const middle = { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 };
    const feet = lines.map((line) => closestPointOnChord(line, middle));
    return { box, tip: feet.reduce((a, b) => (distance(b, middle) < distance(a, middle) ? b : a)) };
  });
}

/** All that is named on one drawing, mm on the paper. */
export interface LabelContext {
  /** The places that one label each may name. */
  readonly anchors: readonly Box[];
  /** The lines that part what a label names from where it may stand: those of the part. */
  readonly lines: readonly Chord[];
  /** Those boxes of the room that hold lines, which the line to a label may cross; the others it may not. */
  readonly drawn: ReadonlySet<Box>;
}

/** Which of the things a label names, which ones it must not be taken for, and whether its line may cross the part's. */
export interface LabelTarget {
  readonly anchor: Box;
  readonly competingAnchors: readonly Box[];
  readonly mayCrossLines: boolean;
}

/** A label's place, taken from then on, and the line to it where it stands too far off or nearer to another thing. */
export interface LabelPlacement {
  readonly box: Box;
  readonly leader: readonly Stroke[];
}

/** The first place that needs no line, else the first whose line crosses nothing that is said or named. */
export function placeLabel(
  room: OccupiedSpace,
  context: LabelContext,
  target: LabelTarget,
  candidates: readonly LabelCandidate[],
): LabelPlacement | undefined {
  // What is cheap to ask is asked first: a crowded drawing has thousands of spots.
  const withoutLeader = candidates.find(
    (spot) =>
      isUnambiguous(spot, target) &&
      isFree(room, spot.box) &&
      !crossesAnyLine(leaderLine(spot), context.lines),
  );
  if (withoutLeader) {
    room.occupied.push(withoutLeader.box);
    return { box: withoutLeader.box, leader: [] };
  }
  let tried = 0;
  const withLeader = candidates.find(
    (spot) =>
      tried < MAX_LEADERS_TRIED &&
      isLeaderSteep(spot) &&
      isFree(room, spot.box) &&
      ++tried > 0 &&
      isLeaderClear(room, context, target, leaderLine(spot)),
  );
  if (!withLeader) return undefined;
  const lead = leaderLine(withLeader);
  room.occupied.push(withLeader.box, ...boxesAlongLines([lead], LEADER_WHITE_MM));
  return { box: withLeader.box, leader: [polyline('lead', [lead.from, lead.to])] };
}

/** From the side of the label nearest to its tip. */
const leaderLine = ({ box, tip }: LabelCandidate): Chord => ({ from: nearestInBox(box, tip), to: tip });

const nearestInBox = ({ left, right, bottom, top }: Box, { x, y }: Point): Point => ({
  x: Math.min(Math.max(x, left), right),
  y: Math.min(Math.max(y, bottom), top),
});

/** Whether a label is seen to belong to its own thing, without a line. */
function isUnambiguous(spot: LabelCandidate, { anchor, competingAnchors }: LabelTarget): boolean {
  const { from, to } = leaderLine(spot);
  if (distance(from, to) > MAX_DISTANCE_WITHOUT_LEADER_MM) return false;
  const middle = boundsOf([
    { x: (spot.box.left + spot.box.right) / 2, y: (spot.box.bottom + spot.box.top) / 2 },
  ]);
  const mine = Math.min(distance(from, to), boxDistance(spot.box, anchor));
  const mineFromMiddle = boxDistance(middle, anchor);
  return !competingAnchors.some(
    (other) =>
      other !== anchor &&
      (boxDistance(spot.box, other) < mine - MISTAKEN_MARGIN_MM ||
        boxDistance(middle, other) < mineFromMiddle),
  );
}

function isLeaderSteep(spot: LabelCandidate): boolean {
  const { from, to } = leaderLine(spot);
  return !spot.normal || dot(subtract(from, to), spot.normal) >= MIN_LEADER_COSINE * distance(from, to);
}

/** How far apart two boxes stand; 0 where they touch. */
const boxDistance = (a: Box, b: Box): number =>
  Math.hypot(
    Math.max(0, a.left - b.right, b.left - a.right),
    Math.max(0, a.bottom - b.top, b.bottom - a.top),
  );

function isLeaderClear(
  { occupied }: OccupiedSpace,
  { anchors, lines, drawn }: LabelContext,
  { anchor, mayCrossLines }: LabelTarget,
  lead: Chord,
) {
  if (!mayCrossLines && crossesAnyLine(lead, lines)) return false;
  return (
    !anchors.some(
      (other) => other !== anchor && segmentIntersectsBox(lead, inflate(other, LEADER_WHITE_MM)),
    ) && !occupied.some((one) => !drawn.has(one) && segmentIntersectsBox(lead, one))
  );
}

const crossesAnyLine = (lead: Chord, lines: readonly Chord[]): boolean => {
  const box = boundsOf([lead.from, lead.to]);
  return lines.some((line) => segmentIntersectsBox(line, box) && chordsIntersect(lead, line));
};
