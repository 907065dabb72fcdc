import type { Curve } from '../../curves/curve.ts';
import { batten } from '../../curves/elastica/batten.ts';
import { bow } from '../../curves/elastica/bow.ts';
import type { StripEnd } from '../../curves/elastica/solve-strip.ts';
import { angleFrom, cross, type Point, point, subtract } from '../../curves/geometry/point.ts';
import { arc } from '../../curves/simple/arc.ts';
import { ellipse } from '../../curves/simple/ellipse.ts';
import { line } from '../../curves/simple/line.ts';
import type { EndConditions } from '../../job/steps/end-conditions.ts';
import { firstOf, itemAt, lastOf, neighbors } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { PIN_COST, WRONG_READING_COST } from './fit-model.ts';

export type TakenKind = 'line' | 'arc' | 'batten' | 'bow' | 'ellipse' | 'spline';
export type Steps = readonly [Curve, ...Curve[]];

/** A way in which the edge may have been drawn. */
export interface CurveFamily {
  readonly kind: TakenKind;
  /** Of its held ends and straight parts. */
  readonly cost: number;
  readonly start: readonly number[];
  /** The steps of the edge from left to right. @throws Fault where there is no such curve */
  readonly make: (unknowns: readonly number[]) => Steps;
  readonly ends?: EndConditions;
}

/** With fewer readings on a straight part, or on a curve with a held end, one wrong reading could feign it. */
const MANY_FLAT_READINGS = 4;
export const MANY_READINGS = 20;

/** A straight part bends to any readings as much as a pin of a spline does. */
const FLAT_COST = PIN_COST;

/** Corners nearer than this are one on a coarse rule, mm. */
const MIN_STEP_MM = 5;

const FREE: EndConditions = ['free', 'free'];
const HELD: readonly EndConditions[] = [
  ['held', 'free'],
  ['free', 'held'],
  ['held', 'held'],
];

/** Where a straight part ends at the left, and where one begins at the right. */
export interface Flats {
  readonly left?: Point | undefined;
  readonly right?: Point | undefined;
}

/** One curve from end to end, sprung over free ends. */
export const plainFamilies = (fair: readonly Point[]): CurveFamily[] => [
  {
    kind: 'line',
    cost: 0,
    start: [firstOf(fair).y, lastOf(fair).y],
    make: ([a = 0, b = 0]) => [line(point(firstOf(fair).x, a), point(lastOf(fair).x, b))],
  },
  ...(['arc', 'bow', 'ellipse'] as const).map((kind) => familyBeside(fair, {}, kind)),
  familyBeside(fair, {}, 'batten'),
];

/** Battens held in line with their chord, and arcs and held battens beside straight parts. */
export function heldFamilies(fair: readonly Point[], { left, right }: Flats): CurveFamily[] {
  const beside: Flats[] = [];
  if (left) beside.push({ left });
  if (right) beside.push({ right });
  if (left && right && fair.some(({ x }) => x > left.x && x < right.x)) beside.push({ left, right });
  const besideFlats = beside.flatMap((flats) => {
    const ends: EndConditions = [flats.left ? 'held' : 'free', flats.right ? 'held' : 'free'];
    return [familyBeside(fair, flats, 'arc'), familyBeside(fair, flats, 'batten', ends)];
  });
  return [...HELD.map((ends) => familyBeside(fair, {}, 'batten', ends)), ...besideFlats];
}

/** Its unknowns: the height of the first end, the corners, the height of the last, and the nail or the rise. */
function familyBeside(
  fair: readonly Point[],
  { left, right }: Flats,
  kind: 'arc' | 'bow' | 'ellipse' | 'batten',
  ends = FREE,
): CurveFamily {
  const [from, to] = [firstOf(fair), lastOf(fair)];
  const [a, b] = [left ?? from, right ?? to];
  const corners = [left, right].filter((p) => p !== undefined);
  const top = farthestFromChord(fair, a, b);
  const rise = cross(subtract(b, a), subtract(top, a)) / (b.x - a.x);
  const make = (unknowns: readonly number[]): Steps => {
    const rest = [...unknowns];
    const next = (): number => itemAt(rest.splice(0, 1), 0);
    const first = point(from.x, next());
    const turns = corners.map(() => point(next(), next()));
    const places = [first, ...turns, point(to.x, next())];
    if (turns.length > 0 && neighbors(places).some(([p, q]) => !(q.x - p.x > MIN_STEP_MM)))
      throw new Fault(
        'curve.same-point',
        'the corners of the edge are too close to each other. Move them apart.',
      );
    const [start, end] = [itemAt(places, left ? 1 : 0), itemAt(places, places.length - (right ? 2 : 1))];
    const held = (index: 0 | 1): StripEnd => {
      if (ends[index] === 'free') return 'free';
      if (index === 0) return { held: angleFrom(first, left ? start : end) };
      return { held: angleFrom(right ? end : start, lastOf(places)) };
    };
    const sprung = () =>
      batten(start, end, { nail: point(next(), next()) }, { start: held(0), end: held(1) });
    const curve = kind === 'batten' ? sprung() : RISEN[kind](start, end, next());
    if (left && right) return [line(first, start), curve, line(end, lastOf(places))];
    return left ? [line(first, start), curve] : right ? [curve, line(end, lastOf(places))] : [curve];
  };
  const costOfEnd = (end: 0 | 1, flat: readonly Point[] | undefined): number => {
    if (flat) return flat.length < MANY_FLAT_READINGS ? WRONG_READING_COST : FLAT_COST;
    return ends[end] === 'held' && fair.length < MANY_READINGS ? WRONG_READING_COST : 0;
  };
  const cost =
    costOfEnd(0, left && fair.filter(({ x }) => x <= left.x)) +
    costOfEnd(1, right && fair.filter(({ x }) => x >= right.x));
  const shape = kind === 'batten' ? [top.x, top.y] : [rise];
  const start = [from.y, ...corners.flatMap(({ x, y }) => [x, y]), to.y, ...shape];
  return { kind, cost, start, make, ...(kind === 'batten' && { ends }) };
}

const RISEN = { arc: (a: Point, b: Point, rise: number): Curve => arc(a, b, { rise }), bow, ellipse };

function farthestFromChord(fair: readonly Point[], a: Point, b: Point): Point {
  const height = (p: Point): number => Math.abs(cross(subtract(b, a), subtract(p, a)));
  const between = fair.filter(({ x }) => x > a.x && x < b.x);
  return between.reduce((best, p) => (height(p) > height(best) ? p : best), itemAt(between, 0));
}

/** Two readings begin a straight part, and as many are left for the curve. */
const MIN_FLAT_READINGS = 2;
/** A reading farther from the straight line is on the curve: the hand errs by as much once in eighty. */
const FLAT_SIGMAS = 2.5;

/** Where straight parts at the ends of the readings stop, where they leave some for a curve. */
export function flatsOf(points: readonly Point[], sigma: number): Flats {
  const left = straightRun(points, sigma);
  const right = straightRun(points.toReversed(), sigma);
  const leaves = (run: number): boolean =>
    run >= MIN_FLAT_READINGS && run <= points.length - MIN_FLAT_READINGS;
  return {
    left: leaves(left) ? points[left - 1] : undefined,
    right: leaves(right) ? points[points.length - right] : undefined,
  };
}

function straightRun(points: readonly Point[], sigma: number): number {
  let count = 2;
  while (count < points.length && isStraight(points.slice(0, count + 1), sigma)) count++;
  return count;
}

function isStraight(points: readonly Point[], sigma: number): boolean {
  const n = points.length;
  const [x, y] = [points.reduce((sum, p) => sum + p.x, 0) / n, points.reduce((sum, p) => sum + p.y, 0) / n];
  const spread = points.reduce((sum, p) => sum + (p.x - x) ** 2, 0);
  const slope = points.reduce((sum, p) => sum + (p.x - x) * (p.y - y), 0) / spread;
  return points.every((p) => Math.abs(p.y - y - slope * (p.x - x)) < FLAT_SIGMAS * sigma);
}
