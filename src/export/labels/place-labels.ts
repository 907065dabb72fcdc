import { type Box, boxOf, grown } from '../../curves/geometry/bounds.ts';
import { type Chord, crosses, nearestOn, passes } from '../../curves/geometry/flatten.ts';
import { distance, dot, type Point, subtract } from '../../curves/geometry/point.ts';
import { polyline, type Stroke } from '../drawing/drawing.ts';
import { BESIDE_MM, besideBoxes, isFree, type Room, strips } from './free-space.ts';

/** A label farther than this, mm, from what it names has a line to it: two lines of its own type. */
export const NEAR_MM = 6;
/** A label so much nearer, mm, to what another label names would be read as that one's. */
const NEARER_MM = 0.5;
/** How far a line to a label keeps off what another label names, and other words off that line, mm. */
const CLEAR_MM = 0.8;

/** Free places from which no line gets through, after which a label is left out: all about it is crowded. */
const MOST_TRIED = 40;

/** Where a label may stand, and where a line to it would end: short of what it names. */
export interface Spot {
  readonly box: Box;
  readonly tip: Point;
  /** Square off the part's line there, a unit vector: a line to a label that ran along that one would be taken for it. */
  readonly off?: Point;
}

/** A line to a label leans at most this far off the square to the part's line: 60°, as the part of it that runs square. */
const LEAST_SQUARE = 0.5;

/** How far off a joint its label may stand, mm: with a line to it farther than without. */
const FAR_BESIDE_MM = [...BESIDE_MM, 20, 28];

/** Where a label may stand beside a joint's lines or the like, close before far. */
export function spotsBeside(lines: readonly Chord[], width: number, height: number): Spot[] {
  const around = boxOf(lines.flatMap(({ from, to }) => [from, to]));
  return besideBoxes(around, width, height, FAR_BESIDE_MM).map((box) => {
    const middle = { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 };
    const feet = lines.map((line) => nearestOn(line, middle));
    return { box, tip: feet.reduce((a, b) => (distance(b, middle) < distance(a, middle) ? b : a)) };
  });
}

/** All that is named on one drawing, mm on the paper. */
export interface Named {
  /** The places that one label each may name. */
  readonly things: readonly Box[];
  /** The lines that part what a label names from where it may stand: those of the part. */
  readonly lines: readonly Chord[];
  /** Those boxes of the room that hold lines, which the line to a label may cross; the others it may not. */
  readonly drawn: ReadonlySet<Box>;
}

/** Which of the things a label names, which ones it must not be taken for, and whether its line may cross the part's. */
export interface Naming {
  readonly own: Box;
  readonly rivals: readonly Box[];
  readonly across: boolean;
}

/** A label's place, taken from then on, and the line to it where it stands too far off or nearer to another thing. */
export interface Led {
  readonly box: Box;
  readonly lead: readonly Stroke[];
}

/** The first place that needs no line, else the first whose line crosses nothing that is said or named. */
export function takeNamed(room: Room, named: Named, naming: Naming, spots: readonly Spot[]): Led | undefined {
  // What is cheap to ask is asked first: a crowded drawing has thousands of spots.
  const near = spots.find(
    (spot) => isPlain(spot, naming) && isFree(room, spot.box) && !crossesAny(leadOf(spot), named.lines),
  );
  if (near) {
    room.taken.push(near.box);
    return { box: near.box, lead: [] };
  }
  let tried = 0;
  const far = spots.find(
    (spot) =>
      tried < MOST_TRIED &&
      isSteep(spot) &&
      isFree(room, spot.box) &&
      ++tried > 0 &&
      isClear(room, named, naming, leadOf(spot)),
  );
  if (!far) return undefined;
  const lead = leadOf(far);
  room.taken.push(far.box, ...strips([lead], CLEAR_MM));
  return { box: far.box, lead: [polyline('lead', [lead.from, lead.to])] };
}

/** From the side of the label nearest to its tip. */
const leadOf = ({ box, tip }: Spot): Chord => ({ from: nearestIn(box, tip), to: tip });

const nearestIn = ({ left, right, bottom, top }: Box, { x, y }: Point): Point => ({
  x: Math.min(Math.max(x, left), right),
  y: Math.min(Math.max(y, bottom), top),
});

/** Whether a label is seen to belong to its own thing, without a line. */
function isPlain(spot: Spot, { own, rivals }: Naming): boolean {
  const { from, to } = leadOf(spot);
  if (distance(from, to) > NEAR_MM) return false;
  const middle = boxOf([
    { x: (spot.box.left + spot.box.right) / 2, y: (spot.box.bottom + spot.box.top) / 2 },
  ]);
  const mine = Math.min(distance(from, to), apart(spot.box, own));
  const mineFromMiddle = apart(middle, own);
  return !rivals.some(
    (other) =>
      other !== own && (apart(spot.box, other) < mine - NEARER_MM || apart(middle, other) < mineFromMiddle),
  );
}

function isSteep(spot: Spot): boolean {
  const { from, to } = leadOf(spot);
  return !spot.off || dot(subtract(from, to), spot.off) >= LEAST_SQUARE * distance(from, to);
}

/** How far apart two boxes stand; 0 where they touch. */
const apart = (a: Box, b: Box): number =>
  Math.hypot(
    Math.max(0, a.left - b.right, b.left - a.right),
    Math.max(0, a.bottom - b.top, b.bottom - a.top),
  );

function isClear({ taken }: Room, { things, lines, drawn }: Named, { own, across }: Naming, lead: Chord) {
  if (!across && crossesAny(lead, lines)) return false;
  return (
    !things.some((other) => other !== own && passes(lead, grown(other, CLEAR_MM))) &&
    !taken.some((one) => !drawn.has(one) && passes(lead, one))
  );
}

const crossesAny = (lead: Chord, lines: readonly Chord[]): boolean => {
  const box = boxOf([lead.from, lead.to]);
  return lines.some((line) => passes(line, box) && crosses(lead, line));
};
