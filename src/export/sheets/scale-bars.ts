import { type Box, boxesOverlap } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { Item } from '../drawing/drawing.ts';
import {
  candidateBoxes,
  isFree,
  nearestFree,
  type OccupiedSpace,
  squaredDistance,
} from '../labels/free-space.ts';
import {
  type BarDirection,
  barBlockSize,
  barLabelBoxes,
  drawScaleBars,
  everyBarEnd,
  SCALE_BARS,
  type ScaleBar,
  type ScaleBarBlock,
} from './scale-bar-block.ts';

/** Where a label may stand along its bar, parts of its length: the middle if it can. */
const LABEL_PLACES = [0.5, 0.25, 0.75, 0.12, 0.88] as const;

/**
 * The 100 mm and 4 in bars, across or down, as near as can be to a wished corner of the first room that
 * holds them: together, or one by one on a crowded sheet. Where no free place is long enough the bars
 * stop short of the lines they meet and go on beyond; their ends and labels always stand free.
 * Undefined when not even that can be had.
 */
export function scaleBars(
  rooms: readonly OccupiedSpace[],
  run: BarDirection,
  wished: Point,
): Item[] | undefined {
  const together = placeBarBlock(rooms, SCALE_BARS, run, wished);
  if (together) return together;
  const alone = SCALE_BARS.map((bar) => placeBarBlock(rooms, [bar], run, wished));
  return alone.every((items) => items !== undefined) ? alone.flat() : undefined;
}

function placeBarBlock(
  rooms: readonly OccupiedSpace[],
  bars: readonly ScaleBar[],
  run: BarDirection,
  wished: Point,
): Item[] | undefined {
  for (const room of rooms) {
    const block = unbrokenBlock(room, bars, run, wished) ?? leastBrokenBlock(room, bars, run, wished);
    if (!block) continue;
    const items = drawScaleBars(block, room.occupied);
    room.occupied.push(block.box);
    return items;
  }
  return undefined;
}

function unbrokenBlock(
  room: OccupiedSpace,
  bars: readonly ScaleBar[],
  direction: BarDirection,
  wished: Point,
): ScaleBarBlock | undefined {
  const box = nearestFree(room, wished, ...barBlockSize(bars, direction));
  return box && { bars, direction, box, label: LABEL_PLACES[0] };
}

/** The block whose bars are broken least, the nearest of equals. */
function leastBrokenBlock(
  room: OccupiedSpace,
  bars: readonly ScaleBar[],
  direction: BarDirection,
  wished: Point,
): ScaleBarBlock | undefined {
  let best: ScaleBarBlock | undefined;
  let least = Number.POSITIVE_INFINITY;
  let nearest = Number.POSITIVE_INFINITY;
  for (const box of candidateBoxes(room, ...barBlockSize(bars, direction))) {
    const far = squaredDistance(wished, box);
    const most = far < nearest ? least : least - 1;
    const crossed = countCovered(room, box, most);
    const block = crossed > most ? undefined : withFreeLabels(room, { bars, direction, box });
    if (!block) continue;
    best = block;
    least = crossed;
    nearest = far;
  }
  return best;
}

/** How many taken boxes a block covers; counted until there are more than `most`. */
function countCovered({ occupied }: OccupiedSpace, box: Box, most: number): number {
  let count = 0;
  for (let i = 0; i < occupied.length; i++) if (boxesOverlap(occupied[i]!, box) && ++count > most) break;
  return count;
}

/** The block with its labels where they stand free; undefined where they or the bars' ends do not. */
function withFreeLabels(room: OccupiedSpace, bare: Omit<ScaleBarBlock, 'label'>): ScaleBarBlock | undefined {
  if (!everyBarEnd(bare, (end) => isFree(room, end))) return undefined;
  const label = LABEL_PLACES.find((one) =>
    barLabelBoxes({ ...bare, label: one }).every((box) => isFree(room, box)),
  );
  return label === undefined ? undefined : { ...bare, label };
}
