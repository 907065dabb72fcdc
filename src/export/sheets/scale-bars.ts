import { type Box, boundsOf, boxesOverlap } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { textWidth } from '../drawing/text-width.ts';
import type { OccupiedSpace } from '../labels/free-space.ts';
import { candidateBoxes, isFree, nearestFree, squaredDistance } from '../labels/free-space.ts';
import { type LabelledSheet, windowSpace } from './sheet-context.ts';

/** One in each unit: a maker with only one rule can measure as well. */
const SCALE_BARS = [
  { label: '100 mm', length: 100, ticks: 10 },
  { label: '4″', length: 4 * MM_PER_INCH, ticks: 8 },
] as const;

type ScaleBar = (typeof SCALE_BARS)[number];
type BarDirection = 'across' | 'down';

interface BarBlock {
  readonly bars: readonly ScaleBar[];
  readonly direction: BarDirection;
  readonly box: Box;
  readonly label: number;
}

const END_TICK_MM = 2.6;
const TICK_MM = 1.3;
const LABEL_MM = 3.2;
const END_WHITE_MM = 2.5;
const PITCH_MM = 7;
/** A bar is drawn in pieces of about this length, mm, so that it can stop short of a line it must cross. */
const PIECE_MM = 1;
const LABEL_PLACES = [0.5, 0.25, 0.75, 0.12, 0.88] as const;

/** Near a wished corner, together or one by one. On a crowded sheet they stop short of lines, never of end or label. */
export function scaleBars(sheet: LabelledSheet, direction: BarDirection, wished: Point): Item[] | undefined {
  const spaces = [sheet.space, windowSpace(sheet)];
  const together = placeBars(spaces, SCALE_BARS, direction, wished);
  if (together) return together;
  const alone = SCALE_BARS.map((bar) => placeBars(spaces, [bar], direction, wished));
  return alone.every((items) => items !== undefined) ? alone.flat() : undefined;
}

function placeBars(
  spaces: readonly OccupiedSpace[],
  bars: readonly ScaleBar[],
  direction: BarDirection,
  wished: Point,
): Item[] | undefined {
  const length = Math.max(...bars.map((bar) => bar.length)) + 2 * END_WHITE_MM;
  const height = 1.5 + PITCH_MM * bars.length;
  const [wide, high] = direction === 'across' ? [length, height] : [height, length];
  for (const space of spaces) {
    const box = nearestFree(space, wished, wide, high);
    const block = box
      ? { bars, direction, box, label: LABEL_PLACES[0] }
      : leastBroken(space, candidateBoxes(space, wide, high), wished, { bars, direction });
    if (!block) continue;
    const items = drawBars(block, space.occupied);
    space.occupied.push(block.box);
    return items;
  }
  return undefined;
}

function leastBroken(
  space: OccupiedSpace,
  boxes: Iterable<Box>,
  wished: Point,
  what: Pick<BarBlock, 'bars' | 'direction'>,
): BarBlock | undefined {
  let best: BarBlock | undefined;
  let [least, nearest] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const box of boxes) {
    const squared = squaredDistance(wished, box);
    const most = squared < nearest ? least : least - 1;
    const covered = countCovered(space, box, most);
    const block = covered > most ? undefined : withFreeLabels(space, { ...what, box });
    if (!block) continue;
    [best, least, nearest] = [block, covered, squared];
  }
  return best;
}

function countCovered({ occupied }: OccupiedSpace, box: Box, most: number): number {
  let count = 0;
  for (const one of occupied) if (boxesOverlap(one, box) && ++count > most) break;
  return count;
}

function withFreeLabels(space: OccupiedSpace, unlabelled: Omit<BarBlock, 'label'>): BarBlock | undefined {
  const blockAt = (label: number): BarBlock => ({ ...unlabelled, label });
  if (!barEnds(blockAt(0)).every((end) => isFree(space, end))) return undefined;
  const label = LABEL_PLACES.find((one) => barLabels(blockAt(one)).every((box) => isFree(space, box)));
  return label === undefined ? undefined : blockAt(label);
}

const pointInBlock = ({ box, direction }: BarBlock, x: number, y: number): Point =>
  direction === 'across' ? { x: box.left + x, y: box.bottom + y } : { x: box.right - y, y: box.bottom + x };

const boxInBlock = (block: BarBlock, left: number, bottom: number, right: number, top: number): Box =>
  boundsOf([pointInBlock(block, left, bottom), pointInBlock(block, right, top)]);

const baseline = ({ bars }: BarBlock, bar: ScaleBar): number =>
  2 + PITCH_MM * (bars.length - 1 - bars.indexOf(bar));

const barEnds = (block: BarBlock): Box[] =>
  block.bars.flatMap((bar) => {
    const base = baseline(block, bar);
    return [0, bar.length].map((x) =>
      boxInBlock(block, x, base - END_TICK_MM / 2, x + 2 * END_WHITE_MM, base + END_TICK_MM / 2),
    );
  });

const barLabels = (block: BarBlock): Box[] =>
  block.bars.map((bar) => {
    const half = textWidth(bar.label, LABEL_MM) / 2 + 1;
    const [middle, base] = [labelMiddle(block, bar), baseline(block, bar)];
    return boxInBlock(block, middle - half, base, middle + half, base + TICK_MM + LABEL_MM);
  });

const labelMiddle = ({ label }: BarBlock, { length }: ScaleBar): number => END_WHITE_MM + length * label;

function drawBars(block: BarBlock, occupied: OccupiedSpace['occupied']): Item[] {
  const inTheWay = occupied.filter((one) => boxesOverlap(one, block.box));
  const isCovered = (box: Box): boolean => inTheWay.some((one) => boxesOverlap(one, box));
  const turn = block.direction === 'across' ? 0 : Math.PI / 2;
  return block.bars.flatMap((bar) => {
    const at = pointInBlock(block, labelMiddle(block, bar), baseline(block, bar) + TICK_MM + 0.9);
    const drawn = [...barLine(block, bar, isCovered), ...barTicks(block, bar, isCovered)];
    return [...drawn, words(bar.label, at, LABEL_MM, 'middle', turn)];
  });
}

function barLine(block: BarBlock, bar: ScaleBar, isCovered: (box: Box) => boolean): Item[] {
  const base = baseline(block, bar);
  const count = Math.round(bar.length / PIECE_MM);
  const at = (i: number): number => END_WHITE_MM + (bar.length * i) / count;
  const pieces: [from: number, to: number][] = [];
  for (let i = 0; i < count; i++) {
    const last = pieces.at(-1);
    if (isCovered(boxInBlock(block, at(i), base - 0.1, at(i + 1), base + 0.1))) continue;
    if (last?.[1] === i) last[1] = i + 1;
    else pieces.push([i, i + 1]);
  }
  return pieces.map(([from, to]) =>
    polyline('rule', [pointInBlock(block, at(from), base), pointInBlock(block, at(to), base)]),
  );
}

const barTicks = (block: BarBlock, bar: ScaleBar, isCovered: (box: Box) => boolean): Item[] =>
  Array.from({ length: bar.ticks + 1 }, (_, i) => i).flatMap((i) => {
    const x = END_WHITE_MM + (bar.length * i) / bar.ticks;
    const isEnd = i === 0 || i === bar.ticks;
    const low = baseline(block, bar) - (isEnd ? END_TICK_MM / 2 : 0);
    const high = low + (isEnd ? END_TICK_MM : TICK_MM);
    if (isCovered(boxInBlock(block, x - 0.1, low, x + 0.1, high))) return [];
    return [polyline('rule', [pointInBlock(block, x, low), pointInBlock(block, x, high)])];
  });
