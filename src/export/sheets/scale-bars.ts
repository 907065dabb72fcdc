import { type Box, overlap } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { Item } from '../drawing/drawing.ts';
import { farFrom, isFree, nearestFree, type Room, spotsIn } from '../labels/free-space.ts';
import {
  BARS,
  type Bar,
  type BarBlock,
  blockSize,
  drawBars,
  everyEnd,
  labelBoxes,
  type Run,
} from './scale-bar-block.ts';

/** Where a label may stand along its bar, parts of its length: the middle if it can. */
const LABEL_PLACES = [0.5, 0.25, 0.75, 0.12, 0.88] as const;

/**
 * The 100 mm and 4 in bars, across or down, as near as can be to a wished corner of the first room that
 * holds them: together, or one by one on a crowded sheet. Where no free place is long enough the bars
 * stop short of the lines they meet and go on beyond; their ends and labels always stand free.
 * Undefined when not even that can be had.
 */
export function scaleBars(rooms: readonly Room[], run: Run, wished: Point): Item[] | undefined {
  const together = placeBars(rooms, BARS, run, wished);
  if (together) return together;
  const alone = BARS.map((bar) => placeBars(rooms, [bar], run, wished));
  return alone.every((items) => items !== undefined) ? alone.flat() : undefined;
}

function placeBars(
  rooms: readonly Room[],
  bars: readonly Bar[],
  run: Run,
  wished: Point,
): Item[] | undefined {
  for (const room of rooms) {
    const block = wholeBlock(room, bars, run, wished) ?? brokenBlock(room, bars, run, wished);
    if (!block) continue;
    const items = drawBars(block, room.taken);
    room.taken.push(block.box);
    return items;
  }
  return undefined;
}

function wholeBlock(room: Room, bars: readonly Bar[], run: Run, wished: Point): BarBlock | undefined {
  const box = nearestFree(room, wished, ...blockSize(bars, run));
  return box && { bars, run, box, label: LABEL_PLACES[0] };
}

/** The block whose bars are broken least, the nearest of equals. */
function brokenBlock(room: Room, bars: readonly Bar[], run: Run, wished: Point): BarBlock | undefined {
  let best: BarBlock | undefined;
  let least = Number.POSITIVE_INFINITY;
  let nearest = Number.POSITIVE_INFINITY;
  for (const box of spotsIn(room, ...blockSize(bars, run))) {
    const far = farFrom(wished, box);
    const most = far < nearest ? least : least - 1;
    const crossed = crossings(room, box, most);
    const block = crossed > most ? undefined : legible(room, { bars, run, box });
    if (!block) continue;
    best = block;
    least = crossed;
    nearest = far;
  }
  return best;
}

/** How many taken boxes a block covers; counted until there are more than `most`. */
function crossings({ taken }: Room, box: Box, most: number): number {
  let count = 0;
  for (let i = 0; i < taken.length; i++) if (overlap(taken[i]!, box) && ++count > most) break;
  return count;
}

/** The block with its labels where they stand free; undefined where they or the bars' ends do not. */
function legible(room: Room, bare: Omit<BarBlock, 'label'>): BarBlock | undefined {
  if (!everyEnd(bare, (end) => isFree(room, end))) return undefined;
  const label = LABEL_PLACES.find((one) =>
    labelBoxes({ ...bare, label: one }).every((box) => isFree(room, box)),
  );
  return label === undefined ? undefined : { ...bare, label };
}
