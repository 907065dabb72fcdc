import { type Box, overlap } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { textWidth } from '../drawing/text-width.ts';
import type { Room } from '../labels/free-space.ts';

/** One in each unit: whoever has only one rule can still measure. */
export const BARS = [
  { label: '100 mm', length: 100, ticks: 10 },
  { label: '4 in', length: 4 * MM_PER_INCH, ticks: 8 },
] as const;

export type Bar = (typeof BARS)[number];
export type Run = 'across' | 'down';

/** Where some bars, one above the other, stand on a sheet, and where along them their labels. */
export interface BarBlock {
  readonly bars: readonly Bar[];
  readonly run: Run;
  readonly box: Box;
  /** Part of the length. */
  readonly label: number;
}

/** The same before its labels have a place. */
type Bare = Omit<BarBlock, 'label'>;

const END_TICK_MM = 2.6;
const TICK_MM = 1.3;
const LABEL_MM = 3.2;

/** White before and after the bars, and from one to the next, mm. */
const END_WHITE_MM = 2.5;
const PITCH_MM = 7;

/** A bar is drawn in pieces of about this length, so that it can stop short of a line it must cross. */
const PIECE_MM = 1;

export function blockSize(bars: readonly Bar[], run: Run): [width: number, height: number] {
  const length = Math.max(...bars.map((bar) => bar.length)) + 2 * END_WHITE_MM;
  const height = 1.5 + PITCH_MM * bars.length;
  return run === 'across' ? [length, height] : [height, length];
}

/** From the block's own frame, its bars lying, to the sheet. */
const place = ({ box, run }: Bare, x: number, y: number): Point =>
  run === 'across' ? { x: box.left + x, y: box.bottom + y } : { x: box.right - y, y: box.bottom + x };

function boxIn(block: Bare, left: number, bottom: number, right: number, top: number): Box {
  const a = place(block, left, bottom);
  const b = place(block, right, top);
  return {
    left: Math.min(a.x, b.x),
    right: Math.max(a.x, b.x),
    bottom: Math.min(a.y, b.y),
    top: Math.max(a.y, b.y),
  };
}

const baseOf = ({ bars }: Bare, bar: Bar): number => 2 + PITCH_MM * (bars.length - 1 - bars.indexOf(bar));

/** Whether the ends of all bars pass a test; asked of many places, most of which fail at once. */
export const everyEnd = (block: Bare, passes: (end: Box) => boolean): boolean =>
  block.bars.every((bar) => {
    const base = baseOf(block, bar);
    return [0, bar.length].every((x) =>
      passes(boxIn(block, x, base - END_TICK_MM / 2, x + 2 * END_WHITE_MM, base + END_TICK_MM / 2)),
    );
  });

export const labelBoxes = (block: BarBlock): Box[] =>
  block.bars.map((bar) => {
    const half = textWidth(bar.label, LABEL_MM) / 2 + 1;
    const [middle, base] = [labelMiddle(block, bar), baseOf(block, bar)];
    return boxIn(block, middle - half, base, middle + half, base + TICK_MM + LABEL_MM);
  });

const labelMiddle = ({ label }: BarBlock, { length }: Bar): number => END_WHITE_MM + length * label;

/** The bars; where something is in their way already they leave it clear. */
export function drawBars(block: BarBlock, taken: Room['taken']): Item[] {
  const inTheWay = taken.filter((one) => overlap(one, block.box));
  return block.bars.flatMap((bar) => [
    ...shaft(block, bar, inTheWay),
    ...ticks(block, bar, inTheWay),
    words(
      bar.label,
      place(block, labelMiddle(block, bar), baseOf(block, bar) + TICK_MM + 0.9),
      LABEL_MM,
      'middle',
      block.run === 'across' ? 0 : Math.PI / 2,
    ),
  ]);
}

const isCovered = (box: Box, taken: readonly Box[]): boolean => taken.some((one) => overlap(one, box));

/** The bar itself: one line, or the stretches of it that are free. */
function shaft(block: BarBlock, bar: Bar, taken: readonly Box[]): Item[] {
  const base = baseOf(block, bar);
  const count = Math.round(bar.length / PIECE_MM);
  const at = (i: number): number => END_WHITE_MM + (bar.length * i) / count;
  const stretches: [from: number, to: number][] = [];
  for (let i = 0; i < count; i++) {
    const last = stretches.at(-1);
    if (isCovered(boxIn(block, at(i), base - 0.1, at(i + 1), base + 0.1), taken)) continue;
    if (last?.[1] === i) last[1] = i + 1;
    else stretches.push([i, i + 1]);
  }
  return stretches.map(([from, to]) =>
    polyline('rule', [place(block, at(from), base), place(block, at(to), base)]),
  );
}

function ticks(block: BarBlock, bar: Bar, taken: readonly Box[]): Item[] {
  return Array.from({ length: bar.ticks + 1 }, (_, i) => i).flatMap((i) => {
    const x = END_WHITE_MM + (bar.length * i) / bar.ticks;
    const isEnd = i === 0 || i === bar.ticks;
    const low = isEnd ? baseOf(block, bar) - END_TICK_MM / 2 : baseOf(block, bar);
    const high = low + (isEnd ? END_TICK_MM : TICK_MM);
    if (isCovered(boxIn(block, x - 0.1, low, x + 0.1, high), taken)) return [];
    return [polyline('rule', [place(block, x, low), place(block, x, high)])];
  });
}
