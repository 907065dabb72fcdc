import type { Box } from '../curves/curve.ts';
import type { Point } from '../curves/point.ts';
import { overlap } from '../tiling/checks.ts';
import { MM_PER_INCH } from '../units/unit.ts';
import { type Item, polyline, words } from './drawing.ts';
import { boxAt, isFree, type Room, spotsFrom } from './place.ts';
import { textWidth } from './type.ts';

/** Two bars side by side, one in each unit: whoever has only one rule can still measure. */
const BARS = [
  { label: '100 mm', length: 100, ticks: 10, base: 9 },
  { label: '4 in', length: 4 * MM_PER_INCH, ticks: 8, base: 2 },
] as const;

type Bar = (typeof BARS)[number];
type Run = 'across' | 'down';

const END_TICK_MM = 2.6;
const TICK_MM = 1.3;
const LABEL_MM = 3.2;

/** White before and after the bars. */
const END_WHITE_MM = 2.5;

/** The block that both bars fill, lying: mm. */
const LENGTH_MM = 4 * MM_PER_INCH + 2 * END_WHITE_MM;
const HEIGHT_MM = 15.5;

/** A bar is drawn in pieces of about this length, so that it can stop short of a line it must cross. */
const PIECE_MM = 1;

/** Where a label may stand along its bar, parts of its length. */
const LABEL_PLACES = [0.5, 0.25, 0.75, 0.12, 0.88] as const;

/**
 * The 100 mm and 4 in bars, across or down, as near as can be to a wished corner. Where no free place
 * is long enough the bars stop short of the lines they meet and go on beyond; their ends and their
 * labels always stand free. Nothing when not even that can be had.
 */
export function scaleBars(room: Room, run: Run, wished: Point): Item[] {
  const [width, height] = run === 'across' ? [LENGTH_MM, HEIGHT_MM] : [HEIGHT_MM, LENGTH_MM];
  const spots = spotsFrom(room, wished, width, height).map((spot) => boxAt(spot, width, height));
  const [block, label] = bestSpot(room, run, spots) ?? [];
  if (!block || label === undefined) return [];
  const items = drawBars(room, block, run, label);
  room.taken.push(block);
  return items;
}

/** The nearest spot that is free; failing that, the one whose bars are broken least. */
function bestSpot(room: Room, run: Run, spots: readonly Box[]): [block: Box, label: number] | undefined {
  const whole = spots.find((box) => isFree(room, box));
  if (whole) return [whole, LABEL_PLACES[0]];
  const broken = spots.flatMap((box) => {
    const label = LABEL_PLACES.find((place) =>
      mustBeFree(box, run, place).every((part) => isFree(room, part)),
    );
    return label === undefined
      ? []
      : [{ box, label, cost: room.taken.filter((one) => overlap(one, box)).length }];
  });
  broken.sort((a, b) => a.cost - b.cost);
  return broken[0] && [broken[0].box, broken[0].label];
}

/** From a bar's own frame, lying, to the sheet. */
const inBlock =
  (block: Box, run: Run) =>
  (x: number, y: number): Point =>
    run === 'across'
      ? { x: block.left + x, y: block.bottom + y }
      : { x: block.right - y, y: block.bottom + x };

const boxIn = (block: Box, run: Run, left: number, bottom: number, right: number, top: number): Box => {
  const [a, b] = [inBlock(block, run)(left, bottom), inBlock(block, run)(right, top)];
  return {
    left: Math.min(a.x, b.x),
    right: Math.max(a.x, b.x),
    bottom: Math.min(a.y, b.y),
    top: Math.max(a.y, b.y),
  };
};

/** The ends of the bars and their labels. */
const mustBeFree = (block: Box, run: Run, place: number): Box[] => [
  boxIn(block, run, 0, 0, 2 * END_WHITE_MM, HEIGHT_MM),
  boxIn(block, run, LENGTH_MM - 3 * END_WHITE_MM, 0, LENGTH_MM, HEIGHT_MM),
  ...BARS.map((bar) => {
    const [middle, half] = [labelMiddle(bar, place), textWidth(bar.label, LABEL_MM) / 2 + 1];
    return boxIn(block, run, middle - half, bar.base, middle + half, bar.base + TICK_MM + LABEL_MM);
  }),
];

const labelMiddle = ({ length }: Bar, place: number): number => END_WHITE_MM + length * place;

function drawBars(room: Room, block: Box, run: Run, place: number): Item[] {
  return BARS.flatMap((bar) => [
    ...shaft(room, block, run, bar),
    ...ticks(room, block, run, bar),
    words(
      bar.label,
      inBlock(block, run)(labelMiddle(bar, place), bar.base + TICK_MM + 0.9),
      LABEL_MM,
      'middle',
      run === 'across' ? 0 : Math.PI / 2,
    ),
  ]);
}

/** The bar itself: one line, or the stretches of it that are free. */
function shaft(room: Room, block: Box, run: Run, { base, length }: Bar): Item[] {
  const count = Math.round(length / PIECE_MM);
  const at = (i: number): number => END_WHITE_MM + (length * i) / count;
  const covered = (i: number): boolean => {
    const piece = boxIn(block, run, at(i), base - 0.1, at(i + 1), base + 0.1);
    return room.taken.some((taken) => overlap(taken, piece));
  };
  const stretches: [number, number][] = [];
  for (let i = 0; i < count; i++) {
    const last = stretches.at(-1);
    if (covered(i)) continue;
    if (last && last[1] === i) last[1] = i + 1;
    else stretches.push([i, i + 1]);
  }
  const to = inBlock(block, run);
  return stretches.map(([from, end]) => polyline('rule', [to(at(from), base), to(at(end), base)]));
}

function ticks(room: Room, block: Box, run: Run, { base, length, ticks: count }: Bar): Item[] {
  const to = inBlock(block, run);
  return Array.from({ length: count + 1 }, (_, i) => i).flatMap((i) => {
    const x = END_WHITE_MM + (length * i) / count;
    const height = i === 0 || i === count ? END_TICK_MM : TICK_MM;
    const low = i === 0 || i === count ? base - TICK_MM : base;
    const box = boxIn(block, run, x - 0.1, low, x + 0.1, low + height);
    const free = !room.taken.some((taken) => overlap(taken, box));
    return free ? [polyline('rule', [to(x, low), to(x, low + height)])] : [];
  });
}
