import { type Box, boxesOverlap, inflate, squareAround } from '../curves/geometry/bounds.ts';
import { type Chord, segmentIntersectsBox } from '../curves/geometry/flatten.ts';
import { distance, type Point, point } from '../curves/geometry/point.ts';
import { cornersOnFace } from '../part/edge.ts';
import type { Part } from '../part/part.ts';
import { type Grid, type GridCell, sheetName, trimmedCell } from './grid/grid.ts';
import type { CheckCross, CheckDistance } from './layout.ts';

/** White around a check cross: its arms of 4 mm, and its letter beside it. */
export const CROSS_REACH_MM = 9;

const SEARCH_STEP_MM = 4;

/** The four outer corners, from the top left clockwise: P to R and Q to S are the diagonals. */
const CORNERS = [
  { letter: 'P', x: -1, y: 1 },
  { letter: 'Q', x: 1, y: 1 },
  { letter: 'R', x: 1, y: -1 },
  { letter: 'S', x: -1, y: -1 },
] as const;

type PatternCorner = (typeof CORNERS)[number];

/** A cross as far out as it goes toward each corner, clear of the lines and the register marks. */
export function placeCheckCrosses(
  grid: Grid,
  printed: readonly GridCell[],
  lines: readonly Chord[],
  marks: readonly Box[],
): CheckCross[] {
  return CORNERS.flatMap((corner) => {
    const candidatesIn = (place: GridCell) =>
      candidatesOnSides(trimmedCell(grid, place), corner).map((at) => ({ at, sheet: sheetName(place) }));
    const outward = printed
      .flatMap(candidatesIn)
      .sort((a, b) => outwardDistance(b.at, corner) - outwardDistance(a.at, corner));
    const free = outward.find(({ at }) => isClear(squareAround(at, CROSS_REACH_MM), lines, marks));
    return free ? [{ letter: corner.letter, ...free }] : [];
  });
}

const outwardDistance = (at: Point, corner: PatternCorner): number => at.x * corner.x + at.y * corner.y;

function candidatesOnSides(cell: Box, corner: PatternCorner): Point[] {
  const inset = inflate(cell, -CROSS_REACH_MM);
  const x = corner.x > 0 ? inset.right : inset.left;
  const y = corner.y > 0 ? inset.top : inset.bottom;
  const count = Math.floor(Math.min(inset.right - inset.left, inset.top - inset.bottom) / SEARCH_STEP_MM);
  const inward = Array.from({ length: Math.max(0, count) }, (_, i) => i * SEARCH_STEP_MM);
  return inward.flatMap((by) => [point(x - corner.x * by, y), point(x, y - corner.y * by)]);
}

const isClear = (box: Box, lines: readonly Chord[], marks: readonly Box[]): boolean =>
  !lines.some((line) => segmentIntersectsBox(line, box)) && !marks.some((mark) => boxesOverlap(mark, box));

export const diagonals = (crosses: readonly CheckCross[]): CheckDistance[] =>
  ['PR', 'QS'].flatMap((letters) => {
    const [a, b] = crosses.filter(({ letter }) => letters.includes(letter));
    return a && b ? [checkDistance(`cross ${a.letter} to cross ${b.letter}`, a.at, b.at)] : [];
  });

export const edgeCheckDistances = (part: Part): CheckDistance[] =>
  part.edges.map((edge, i) => {
    const [from, to] = cornersOnFace(part, edge);
    const middle = part.shape.type === 'half' ? part.shape.middles[i] : undefined;
    return middle
      ? checkDistance(`${edge.name}, end to center line, straight`, from, middle)
      : checkDistance(`${edge.name}, end to end, straight`, from, to);
  });

const checkDistance = (label: string, from: Point, to: Point): CheckDistance => {
  return { label, from, to, length: distance(from, to) };
};
