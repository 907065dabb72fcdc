import { type Box, boxesOverlap } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { textWidth } from '../drawing/text-width.ts';
import type { OccupiedSpace } from '../labels/free-space.ts';

/** One in each unit: whoever has only one rule can still measure. */
export const SCALE_BARS = [
  { label: '100 mm', length: 100, ticks: 10 },
  { label: '4 in', length: 4 * MM_PER_INCH, ticks: 8 },
] as const;

export type ScaleBar = (typeof SCALE_BARS)[number];
export type BarDirection = 'across' | 'down';

/** Where some bars, one above the other, stand on a sheet, and where along them their labels. */
export interface ScaleBarBlock {
  readonly bars: readonly ScaleBar[];
  readonly direction: BarDirection;
  readonly box: Box;
  /** Part of the length. */
  readonly label: number;
}

/** The same before its labels have a place. */
type UnlabelledBars = Omit<ScaleBarBlock, 'label'>;

const END_TICK_MM = 2.6;
const TICK_MM = 1.3;
const LABEL_MM = 3.2;

/** White before and after the bars, and from one to the next, mm. */
const END_WHITE_MM = 2.5;
const PITCH_MM = 7;

/** A bar is drawn in pieces of about this length, so that it can stop short of a line it must cross. */
const PIECE_MM = 1;

export function barBlockSize(bars: readonly ScaleBar[], run: BarDirection): [width: number, height: number] {
  const length = Math.max(...bars.map((bar) => bar.length)) + 2 * END_WHITE_MM;
  const height = 1.5 + PITCH_MM * bars.length;
  return run === 'across' ? [length, height] : [height, length];
}

/** From the block's own frame, its bars lying, to the sheet. */
const pointInBlock = ({ box, direction }: UnlabelledBars, x: number, y: number): Point =>
  direction === 'across' ? { x: box.left + x, y: box.bottom + y } : { x: box.right - y, y: box.bottom + x };

function boxInBlock(block: UnlabelledBars, left: number, bottom: number, right: number, top: number): Box {
  const a = pointInBlock(block, left, bottom);
  const b = pointInBlock(block, right, top);
  return {
    left: Math.min(a.x, b.x),
    right: Math.max(a.x, b.x),
    bottom: Math.min(a.y, b.y),
    top: Math.max(a.y, b.y),
  };
}

const barBaseline = ({ bars }: UnlabelledBars, bar: ScaleBar): number =>
  2 + PITCH_MM * (bars.length - 1 - bars.indexOf(bar));

/** Whether the ends of all bars pass a test; asked of many places, most of which fail at once. */
export const everyBarEnd = (block: UnlabelledBars, passes: (end: Box) => boolean): boolean =>
  block.bars.every((bar) => {
    const base = barBaseline(block, bar);
    return [0, bar.length].every((x) =>
      passes(boxInBlock(block, x, base - END_TICK_MM / 2, x + 2 * END_WHITE_MM, base + END_TICK_MM / 2)),
    );
  });

export const barLabelBoxes = (block: ScaleBarBlock): Box[] =>
  block.bars.map((bar) => {
    const half = textWidth(bar.label, LABEL_MM) / 2 + 1;
    const [middle, base] = [labelMiddle(block, bar), barBaseline(block, bar)];
    return boxInBlock(block, middle - half, base, middle + half, base + TICK_MM + LABEL_MM);
  });

const labelMiddle = ({ label }: ScaleBarBlock, { length }: ScaleBar): number => END_WHITE_MM + length * label;

/** The bars; where something is in their way already they leave it clear. */
export function drawScaleBars(block: ScaleBarBlock, taken: OccupiedSpace['occupied']): Item[] {
  const inTheWay = taken.filter((one) => boxesOverlap(one, block.box));
  return block.bars.flatMap((bar) => [
    ...barLine(block, bar, inTheWay),
    ...barTicks(block, bar, inTheWay),
    words(
      bar.label,
      pointInBlock(block, labelMiddle(block, bar), barBaseline(block, bar) + TICK_MM + 0.9),
      LABEL_MM,
      'middle',
      block.direction === 'across' ? 0 : Math.PI / 2,
    ),
  ]);
}

const isOccupied = (box: Box, taken: readonly Box[]): boolean => taken.some((one) => boxesOverlap(one, box));

/** The bar itself: one line, or the stretches of it that are free. */
function barLine(block: ScaleBarBlock, bar: ScaleBar, taken: readonly Box[]): Item[] {
  const base = barBaseline(block, bar);
  const count = Math.round(bar.length / PIECE_MM);
  const at = (i: number): number => END_WHITE_MM + (bar.length * i) / count;
  const stretches: [from: number, to: number][] = [];
  for (let i = 0; i < count; i++) {
    const last = stretches.at(-1);
    if (isOccupied(boxInBlock(block, at(i), base - 0.1, at(i + 1), base + 0.1), taken)) continue;
    if (last?.[1] === i) last[1] = i + 1;
    else stretches.push([i, i + 1]);
  }
  return stretches.map(([from, to]) =>
    polyline('rule', [pointInBlock(block, at(from), base), pointInBlock(block, at(to), base)]),
  );
}

function barTicks(block: ScaleBarBlock, bar: ScaleBar, taken: readonly Box[]): Item[] {
  return Array.from({ length: bar.ticks + 1 }, (_, i) => i).flatMap((i) => {
    const x = END_WHITE_MM + (bar.length * i) / bar.ticks;
    const isEnd = i === 0 || i === bar.ticks;
    const low = isEnd ? barBaseline(block, bar) - END_TICK_MM / 2 : barBaseline(block, bar);
    const high = low + (isEnd ? END_TICK_MM : TICK_MM);
    if (isOccupied(boxInBlock(block, x - 0.1, low, x + 0.1, high), taken)) return [];
    return [polyline('rule', [pointInBlock(block, x, low), pointInBlock(block, x, high)])];
  });
}
