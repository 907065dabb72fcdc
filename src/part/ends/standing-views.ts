import { flatten } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { lowerFirst } from '../edge.ts';
import type { Part, PartEdge } from '../part.ts';
import type { PartEnd } from './end-planes.ts';
import { type FootOut, footOut } from './standing.ts';

/** A leg on the floor as a level eye sees it, mm: the floor at y = 0, x to the right. */
export interface StandingView {
  readonly from: 'front' | 'side';
  /** The face or the edge that is toward the reader. */
  readonly toward: string;
  readonly outline: readonly Point[];
  /** Of the top above the floor. */
  readonly height: number;
  /** Absent where the leg is plumb in this view. */
  readonly out?: FootOut;
  /** A line along the leg, from its foot to its top; `isDrawn` where an edge or a face runs there. */
  readonly along: readonly [foot: Point, top: Point];
  readonly isDrawn: boolean;
}

/** Along the part, across it, and from the other face toward the reference face, mm. */
type Vector = readonly [number, number, number];

/** Directions in the room: up, to the right of a reader of the reference face, and toward that reader. */
interface Room {
  readonly up: Vector;
  readonly right: Vector;
  readonly toReader: Vector;
}

interface Leg {
  readonly part: Part;
  readonly lower: PartEdge;
  readonly upper: PartEdge;
  readonly thickness: number;
  readonly ends: NonNullable<Part['ends']>;
  readonly foot: PartEnd;
  /** Along the part, from its foot. */
  readonly axis: Vector;
  readonly room: Room;
  readonly height: number;
  readonly floor: number;
}

/**
 * From the front and, where the thickness is known, from the side; none of a part that does not stand or is upright.
 * The two directions of sight are level and square to each other. In them the leg shows both angles of the job and both
 * distances of `footOut`. They are square to the face and along it where the face is level across, and nearly so where
 * the leg is not twisted.
 */
export function standingViews(part: Part): StandingView[] {
  const outs = footOut(part);
  const leg = legOf(part, outs);
  if (!leg) return [];
  const { lower, upper } = leg;
  const ofEdge = outs.find(({ towards }) => [lower.name, upper.name].includes(towards));
  const ofFace = outs.find((out) => out !== ofEdge);
  return leg.thickness > 0 ? [frontView(leg, ofEdge), sideView(leg, ofFace)] : [frontView(leg, ofEdge)];
}

function legOf(part: Part, outs: readonly FootOut[]): Leg | undefined {
  const { shape, ends, stands, edges, stock } = part;
  const [first, second] = edges;
  if (shape.type !== 'closed' || !ends || !stands || !second) return undefined;
  if (!outs.some(({ by }) => by > 0)) return undefined;
  const [lower, upper] = lowerFirst([first, second]);
  const thickness = stock?.thickness ?? 0;
  const [foot, top, way] = stands.foot === 'left' ? [ends[0], ends[1], 1] : [ends[1], ends[0], -1];
  const { rake, splay } = foot.angles;
  const up = unit(scaled([1, Math.tan(rake), Math.tan(splay)], way));
  const onFace = ({ x, y }: Point): Vector => [x, y, thickness];
  const floor = dot(onFace(foot.face[0]), up);
  const height = dot(onFace(top.face[0]), up) - floor;
  const axis: Vector = [way, 0, 0];
  return {
    part,
    lower,
    upper,
    thickness,
    ends,
    foot,
    axis,
    floor,
    height,
    room: makeRoom(up, axis, outs, upper),
  };
}

/**
 * Of a leg of height 1, the foot is out from the top by tan a toward an edge and tan b toward a face, level and square
 * to each other. That is how far it is out in space, too, and the two parts of it give the directions.
 */
function makeRoom(up: Vector, axis: Vector, outs: readonly FootOut[], upper: PartEdge): Room {
  const out = plus(scaled(axis, -1 / dot(axis, up)), up);
  const across = cross(up, out);
  let [right, toReader] = [0, 0];
  for (const { towards, by } of outs) {
    if (towards === 'reference-face') toReader = Math.tan(by);
    else if (towards === 'other-face') toReader = -Math.tan(by);
    // With the foot at the left, the larger offsets are at the left of the standing leg.
    else right = (towards === upper.name ? -1 : 1) * axis[0] * Math.tan(by);
  }
  return {
    up,
    right: unit(plus(scaled(out, right), scaled(across, toReader))),
    toReader: unit(plus(scaled(out, toReader), scaled(across, -right))),
  };
}

const place =
  ({ floor, room: { up } }: Leg, right: Vector) =>
  (at: Vector): Point =>
    point(dot(at, right), dot(at, up) - floor);

/** From a place on the foot to the height of the top. */
const alongFrom = ({ axis, height, room: { up } }: Leg, at: Vector): readonly [Vector, Vector] => [
  at,
  plus(at, scaled(axis, height / dot(axis, up))),
];

function frontView(leg: Leg, out: FootOut | undefined): StandingView {
  const { part, lower, upper, foot, thickness, room, height } = leg;
  const show = place(leg, room.right);
  const onFace = ({ x, y }: Point): Vector => [x, y, thickness];
  const straight = [lower, upper].find(isAlongPart);
  const [low, high] = foot.face;
  const isUpper = straight ? straight === upper : out?.towards === upper.name;
  const [from, to] = alongFrom(leg, onFace(isUpper ? high : low));
  const outline = part.shape.type === 'closed' ? part.shape.outline : [];
  return {
    from: 'front',
    toward: 'reference-face',
    outline: flatten(outline).map((chord) => show(onFace(chord.from))),
    height,
    ...(out && { out }),
    along: [show(from), show(to)],
    isDrawn: straight !== undefined,
  };
}

const isAlongPart = ({ runs }: PartEdge): boolean =>
  runs.every(({ kind, from, to }) => kind === 'line' && Math.abs(from.y - to.y) < JOIN_MM);

/** From the right of the front view: the reference face is at the left. */
function sideView(leg: Leg, out: FootOut | undefined): StandingView {
  const { lower, upper, axis, foot, thickness, room, height } = leg;
  const show = place(leg, scaled(room.toReader, -1));
  const near = axis[0] > 0 ? lower : upper;
  const corner = near === upper ? 1 : 0;
  const [onFace, onBack] = [edgePoints(leg, near, 'face'), edgePoints(leg, near, 'back')];
  const isOnBack = out?.towards === 'other-face';
  const { x, y } = (isOnBack ? foot.back : foot.face)[corner];
  const [from, to] = alongFrom(leg, [x, y, isOnBack ? 0 : thickness]);
  return {
    from: 'side',
    toward: near.name,
    outline: [
      ...onFace.map((at) => show([at.x, at.y, thickness])),
      ...onBack.toReversed().map((at) => show([at.x, at.y, 0])),
    ],
    height,
    ...(out && { out }),
    along: [show(from), show(to)],
    isDrawn: true,
  };
}

/** Of an edge on one of the faces, from its left corner to its right one. */
function edgePoints({ ends, upper }: Leg, edge: PartEdge, side: 'face' | 'back'): Point[] {
  const corner = edge === upper ? 1 : 0;
  const [left, right] = [ends[0][side][corner], ends[1][side][corner]];
  const inner = flatten(edge.path).map(({ from }) => from);
  return [left, ...inner.filter(({ x }) => x > left.x + JOIN_MM && x < right.x - JOIN_MM), right];
}

const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const scaled = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k];
const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const unit = (a: Vector): Vector => scaled(a, 1 / Math.sqrt(dot(a, a)));
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
