import {
  add,
  cross,
  distance,
  dot,
  leftNormal,
  lerp,
  type Point,
  point,
  scale,
  subtract,
} from '../curves/geometry/point.ts';
import type { CheckDistance, Layout } from './layout.ts';
import { NOMINAL_LINE_MM } from './paper/printer-scale.ts';
import { seamsToSheets, sheetShowing, type TapedSeam } from './taped-seams.ts';

/** How far careful work lets one seam slide, mm: about a pencil line's width. Common practice; no published source. */
export const SEAM_ERROR_MM = 0.3;

/** How closely a line is read on a steel rule, mm: half of 1/64 in. The check of a bar lets this much pass. */
export const READING_ERROR_MM = 0.2;

/** The bar to measure on every sheet, mm. */
export const SCALE_BAR_MM = 100;

/** A share; our judgment: half the least of the 0.2 to 0.4% that the paper trade gives. Dry to damp may do worse. */
const DAMP_STRAIN = 0.001;

/** Where two sheets meet a straight line steps: it is looked at on both of them, this far from the seam, mm. */
const BESIDE_SEAM_MM = 1;

/**
 * The middle of two register marks is off by half the sum of their errors, the turn by their difference over the
 * distance between them. So a seam that slides `SEAM_ERROR_MM` at most turns by twice that over `marksApart`.
 */
const seamTurn = ({ marksApart }: TapedSeam): number => (2 * SEAM_ERROR_MM) / marksApart;

/**
 * Of a distance, mm, though all sheets passed their checks: the scale's unseen error and damp count in full; seams err
 * both ways, so that their squares add up. A model of ours; no published source.
 */
export const expectedError = (layout: Layout, from: Point, to: Point): number =>
  distance(from, to) * scaleError(layout) + seamError(layout, stretched(from, to, 1));

/** Of one diagonal less the other, mm: the scale and damp change both alike. */
export const expectedDifference = (layout: Layout, one: CheckDistance, other: CheckDistance): number =>
  Math.abs(one.length - other.length) * scaleError(layout) +
  seamError(layout, [...stretched(one.from, one.to, 1), ...stretched(other.from, other.to, -1)]);

/** Of a length, mm, joined at so many places along a straight stick: the rows slide there, but do not turn. */
export const expectedJoinedLength = (layout: Layout, length: number, joins: number): number =>
  length * scaleError(layout) + SEAM_ERROR_MM * Math.sqrt(joins);

/** The widest gap, mm, at a straightedge that is laid on both ends of a straight line of the pattern. */
export function expectedGap(layout: Layout, from: Point, to: Point): number {
  const square = leftNormal(unitVector(from, to));
  const atShare = (share: number): Move[] => [
    { at: lerp(from, to, share), along: square },
    { at: from, along: scale(square, share - 1) },
    { at: to, along: scale(square, -share) },
  ];
  const beside = BESIDE_SEAM_MM / (distance(from, to) || 1);
  const seams = new Set([from, to].flatMap(seamsFromFirst(layout)));
  const shares = [...seams]
    .flatMap((seam) => [-beside, beside].map((aside) => shareAlong(from, to, seam.middle) + aside))
    .filter((share) => share > 0 && share < 1);
  return Math.max(0, ...shares.map((share) => seamError(layout, atShare(share))));
}

/** The widest step, mm, of a straight line of the pattern at one of its seams. */
export function expectedStep(layout: Layout, from: Point, to: Point): number {
  const square = leftNormal(unitVector(from, to));
  const beside = BESIDE_SEAM_MM / (distance(from, to) || 1);
  const steps = crossedSeams(layout, from, to).map((share) =>
    seamError(layout, [
      { at: lerp(from, to, share + beside), along: square },
      { at: lerp(from, to, share - beside), along: scale(square, -1) },
    ]),
  );
  return Math.max(0, ...steps);
}

/** Where along a line it crosses seams, as shares of its length. */
const crossedSeams = (layout: Layout, from: Point, to: Point): number[] =>
  [...new Set([from, to].flatMap(seamsFromFirst(layout)))]
    .map((seam) => shareAlong(from, to, seam.middle))
    .filter((share) => share > 0 && share < 1);

const scaleError = ({ printer }: Layout): number =>
  READING_ERROR_MM / (printer ? NOMINAL_LINE_MM : SCALE_BAR_MM) + DAMP_STRAIN;

/** How much a measure changes with a place of the pattern: mm for a mm along x and along y. */
interface Move {
  readonly at: Point;
  readonly along: Point;
}

const unitVector = (from: Point, to: Point): Point =>
  scale(subtract(to, from), 1 / (distance(from, to) || 1));

const stretched = (from: Point, to: Point, times: number): Move[] => {
  const along = scale(unitVector(from, to), times);
  return [
    { at: to, along },
    { at: from, along: scale(along, -1) },
  ];
};

const shareAlong = (from: Point, to: Point, at: Point): number =>
  dot(subtract(at, from), unitVector(from, to)) / (distance(from, to) || 1);

const seamsFromFirst = (layout: Layout): ((place: Point) => readonly TapedSeam[]) => {
  const seamsTo = seamsToSheets(layout);
  return (place) => seamsTo.get(sheetShowing(layout, place).name) ?? [];
};

/** Every sheet moves with all the seams that lead to it from the first. */
function seamError(layout: Layout, moves: readonly Move[]): number {
  const seamsTo = seamsFromFirst(layout);
  const reached = moves.map((move) => ({ ...move, seams: seamsTo(move.at) }));
  const squares = [...new Set(reached.flatMap(({ seams }) => seams))].map((seam) => {
    const moved = reached.filter(({ seams }) => seams.includes(seam));
    const slide = moved.reduce((sum, { along }) => add(sum, along), point(0, 0));
    const turn = moved.reduce((sum, { at, along }) => sum + cross(subtract(at, seam.middle), along), 0);
    return (SEAM_ERROR_MM * Math.hypot(slide.x, slide.y)) ** 2 + (seamTurn(seam) * turn) ** 2;
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0));
}
