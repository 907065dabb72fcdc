import { type Box, boundsOf } from '../curves/geometry/bounds.ts';
import { paramCurve, samplePiece } from '../curves/geometry/evaluate.ts';
import { isShoulder, type Piece } from '../curves/geometry/pieces/piece.ts';
import type { Point } from '../curves/geometry/point.ts';
import { add, angleFrom, direction, dot, leftNormal, scale, subtract } from '../curves/geometry/point.ts';
import { rootsOn } from '../curves/numeric/roots-and-minima.ts';
import type { EndSide } from '../job/job.ts';
import { itemAt, lastOf } from '../units/checked.ts';
import { Fault } from '../units/fault.ts';
import { MM_PER_INCH, type Unit } from '../units/unit.ts';
import { edgeEnd, edgeStart } from './edge.ts';
import type { PartEdge } from './part.ts';

/** Stations are measured along it, offsets square off. */
export interface BaseLine {
  readonly origin: Point;
  readonly angle: number;
}

/** Stations as the job gives them. */
export const REFERENCE_LINE: BaseLine = { origin: { x: 0, y: 0 }, angle: 0 };

/** The straight line between an edge's two ends, its first end at station 0. */
export function chordLine(edge: PartEdge): BaseLine {
  const origin = edgeStart(edge);
  return { origin, angle: angleFrom(origin, edgeEnd(edge)) };
}

/** A point by its station along a line and its offset square off it, mm. */
export function toBaseLine(at: Point, { origin, angle }: BaseLine = REFERENCE_LINE): Point {
  const [way, out] = [direction(angle), subtract(at, origin)];
  return { x: dot(out, way), y: dot(out, leftNormal(way)) };
}

/** A point by its station x along a line and its offset y, in the part's frame. */
export function fromBaseLine({ x, y }: Point, { origin, angle }: BaseLine): Point {
  const way = direction(angle);
  return add(origin, add(scale(way, x), scale(leftNormal(way), y)));
}

export const stationRangeAlong = (edge: PartEdge, base: BaseLine) =>
  [toBaseLine(edgeStart(edge), base).x, toBaseLine(edgeEnd(edge), base).x] as const;

/** Steps that tell the crossings of one piece with a station apart. */
const CROSSING_SAMPLES = 24;

const BOUNDS_CACHE = new WeakMap<Piece, Box>();

/** Around the places at those steps: a station outside them has no crossing on the piece. */
function sampledBounds(piece: Piece): Box {
  const known = BOUNDS_CACHE.get(piece);
  if (known) return known;
  const box = boundsOf(samplePiece(piece, CROSSING_SAMPLES));
  BOUNDS_CACHE.set(piece, box);
  return box;
}

function mayReach({ left, right, bottom, top }: Box, station: number, { origin, angle }: BaseLine): boolean {
  const { x, y } = direction(angle);
  const middle = ((left + right) / 2 - origin.x) * x + ((bottom + top) / 2 - origin.y) * y;
  const half = (Math.abs((right - left) * x) + Math.abs((top - bottom) * y)) / 2;
  return Math.abs(station - middle) <= half + SAME_OFFSET_MM;
}

/** Two crossings nearer than this along the offset are one, mm: the end of one piece and the next's start. */
export const SAME_OFFSET_MM = 1e-6;

/** In the edge's order: none outside it, both ends of a shoulder, several where the line doubles back. */
export function offsetsAt(edge: Pick<PartEdge, 'pieces'>, station: number, base = REFERENCE_LINE): number[] {
  const run = direction(base.angle);
  const offsets: number[] = [];
  const addOnce = (p: Point): void => {
    const offset = dot(subtract(p, base.origin), leftNormal(run));
    if (!offsets.some((known) => Math.abs(known - offset) < SAME_OFFSET_MM)) offsets.push(offset);
  };
  for (const piece of edge.pieces) {
    if (!mayReach(sampledBounds(piece), station, base)) continue;
    const at = paramCurve(piece);
    const past = (u: number): number => dot(subtract(at(u), base.origin), run) - station;
    // Rounding may leave a piece's end short of its own station.
    const ends = [0, 1].filter((u) => Math.abs(past(u)) < SAME_OFFSET_MM);
    // A shoulder is at its station all along: only its corners count.
    const passes = piece.type === 'line' && ends.length === 2 ? [] : rootsOn(past, CROSSING_SAMPLES);
    for (const u of [...passes, ...ends]) addOnce(at(u));
  }
  return offsets;
}

export interface ShoulderCorner {
  readonly station: number;
  readonly offset: number;
  readonly side: EndSide;
}

export const shoulderCorners = (edge: Pick<PartEdge, 'pieces'>, base = REFERENCE_LINE): ShoulderCorner[] =>
  edge.pieces.filter(isShoulder).flatMap(({ from, to }) =>
    [from, to].map((p, i): ShoulderCorner => {
      const { x: station, y: offset } = toBaseLine(p, base);
      return { station, offset, side: i === 0 ? 'left' : 'right' };
    }),
  );

export type OffsetBeside = Pick<ShoulderCorner, 'offset'> & Partial<Pick<ShoulderCorner, 'side'>>;

/** An edge's offset at a station, or at a shoulder those of its corners; none beyond its ends. */
export function offsetsBeside(edge: PartEdge, station: number, base?: BaseLine): OffsetBeside[] {
  const isHere = (corner: ShoulderCorner): boolean => Math.abs(corner.station - station) < SAME_OFFSET_MM;
  const corners = shoulderCorners(edge, base).filter(isHere);
  if (corners.length > 0) return corners.map(({ offset, side }) => ({ offset, side }));
  const offset = offsetAt(edge, station, base);
  return offset === undefined ? [] : [{ offset }];
}

/** The first offset where an edge doubles back; undefined beyond its ends. */
export const offsetAt = (edge: PartEdge, station: number, base?: BaseLine): number | undefined =>
  offsetsAt(edge, station, base)[0];

/** Spacings a maker would tick along a rule, in the rule's unit. */
const STATION_SPACINGS: Record<Unit, readonly number[]> = {
  in: [0.5, 1, 2, 3, 6, 12, 24, 48],
  mm: [10, 20, 25, 50, 100, 200, 250, 500, 1000],
};

/** The finest one that gives at most `most` stations over a length; mm. */
export function stationSpacing(length: number, unit: Unit, most: number): number {
  const size = unit === 'in' ? MM_PER_INCH : 1;
  const ticks = STATION_SPACINGS[unit];
  return (ticks.find((tick) => length / (tick * size) <= most) ?? lastOf(ticks)) * size;
}

/** Without a spacing asked for: a page of layout, not a list. */
const USUAL_STATIONS = 16;
/** A mistake in the decimal point gives a message and not a flood. */
const MAX_STATIONS = 10_000;

/** An edge's ends, its shoulders and every whole multiple of a spacing, mm. @throws Fault `offsets.too-many-stations` */
export function stationsOf(edge: PartEdge, base: BaseLine, unit: Unit, every?: number): number[] {
  const [from, to] = stationRangeAlong(edge, base);
  const spacing = every ?? stationSpacing(to - from, unit, USUAL_STATIONS);
  assertFewStations((to - from) / spacing);
  const shoulders = shoulderCorners(edge, base).map(({ station }) => station);
  return [...stationsEvery(from, to, spacing), ...shoulders]
    .sort((a, b) => a - b)
    .filter((station, i, sorted) => i === 0 || station - itemAt(sorted, i - 1) > SAME_OFFSET_MM);
}

/** @throws Fault `offsets.too-many-stations` */
export function assertFewStations(count: number): void {
  const problem = `this spacing gives more than ${MAX_STATIONS} rows. Use a larger spacing.`;
  if (count > MAX_STATIONS) throw new Fault('offsets.too-many-stations', problem);
}

/** Both ends and every whole multiple of `every` between, mm. */
export function stationsEvery(from: number, to: number, every: number): number[] {
  const stations = [from];
  const count = Math.floor(to / every);
  for (let i = Math.ceil(from / every); i <= count; i++) {
    const station = i * every;
    if (station - from > SAME_OFFSET_MM && to - station > SAME_OFFSET_MM) stations.push(station);
  }
  if (to - from > SAME_OFFSET_MM) stations.push(to);
  return stations;
}
