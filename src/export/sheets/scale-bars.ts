import { type Box, boundsOf, boxesOverlap } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, textWidth } from '../drawing/text-width.ts';
import type { OccupiedSpace } from '../labels/free-space.ts';
import { candidateBoxes, isFree, nearestFree, squaredDistance } from '../labels/free-space.ts';
import { type LabelledSheet, windowSpace } from './sheet-context.ts';
import { NOTE_MM } from './sheet-type.ts';

/** Both units from one end mark, one on each side: a maker with only one rule can measure as well. */
const SCALES = [
  { label: '100 mm', length: 100, ticks: 10, side: 1 },
  { label: '4″', length: 4 * MM_PER_INCH, ticks: 8, side: -1 },
] as const;

type Scale = (typeof SCALES)[number];
type BarDirection = 'across' | 'down';

interface BarBlock {
  readonly direction: BarDirection;
  readonly box: Box;
  /** Where along the bar its labels are, a share. */
  readonly label: number;
}

const BAR_MM = Math.max(...SCALES.map(({ length }) => length));
const END_TICK_MM = 3;
const TICK_MM = 1.4;
const END_WHITE_MM = 2.5;
const LABEL_GAP_MM = 0.8;
const HALF_HEIGHT_MM = TICK_MM + LABEL_GAP_MM + NOTE_MM * 0.85;
/** A bar is drawn in pieces of about this length, mm, so that it can stop short of a line it must cross. */
const PIECE_MM = 1;
const LABEL_PLACES = [0.5, 0.25, 0.75, 0.12, 0.88] as const;

/** Near a wished corner. On a crowded sheet the bar stops short of lines, never at an end mark or a label. */
export function scaleBar(sheet: LabelledSheet, direction: BarDirection, wished: Point): Item[] | undefined {
  const [length, height] = [BAR_MM + 2 * END_WHITE_MM, 2 * HALF_HEIGHT_MM];
  const [wide, high] = direction === 'across' ? [length, height] : [height, length];
  for (const space of [sheet.space, windowSpace(sheet)]) {
    const box = nearestFree(space, wished, wide, high);
    const block = box
      ? { direction, box, label: LABEL_PLACES[0] }
      : leastBroken(space, candidateBoxes(space, wide, high), wished, direction);
    if (!block) continue;
    const items = drawBar(block, space.occupied);
    space.occupied.push(block.box);
    return items;
  }
  return undefined;
}

function leastBroken(
  space: OccupiedSpace,
  boxes: Iterable<Box>,
  wished: Point,
  direction: BarDirection,
): BarBlock | undefined {
  let best: BarBlock | undefined;
  let [least, nearest] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const box of boxes) {
    const squared = squaredDistance(wished, box);
    const most = squared < nearest ? least : least - 1;
    const covered = countCovered(space, box, most);
    const block = covered > most ? undefined : withFreeLabels(space, { direction, box });
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

/** Along the bar from its first end mark, and off it to the side of the millimeters. */
const pointOnBar = ({ box, direction }: BarBlock, along: number, off: number): Point =>
  direction === 'across'
    ? { x: box.left + END_WHITE_MM + along, y: box.bottom + HALF_HEIGHT_MM + off }
    : { x: box.right - HALF_HEIGHT_MM - off, y: box.bottom + END_WHITE_MM + along };

const boxOnBar = (block: BarBlock, from: number, low: number, to: number, high: number): Box =>
  boundsOf([pointOnBar(block, from, low), pointOnBar(block, to, high)]);

const barEnds = (block: BarBlock): Box[] =>
  [0, BAR_MM].map((end) =>
    boxOnBar(block, end - END_WHITE_MM, -END_TICK_MM / 2, end + END_WHITE_MM, END_TICK_MM / 2),
  );

/** Where words of a scale begin: above the bar with their feet to it, below with their heads. */
const labelBase = ({ side }: Scale): number =>
  side > 0 ? TICK_MM + LABEL_GAP_MM : -(TICK_MM + LABEL_GAP_MM + NOTE_MM * CAP_HEIGHT);

const barLabels = (block: BarBlock): Box[] =>
  SCALES.map((scale) => {
    const half = textWidth(scale.label, NOTE_MM) / 2 + 1;
    const [middle, base] = [block.label * BAR_MM, labelBase(scale)];
    return boxOnBar(block, middle - half, base - 0.3, middle + half, base + NOTE_MM * CAP_HEIGHT + 0.3);
  });

function drawBar(block: BarBlock, occupied: OccupiedSpace['occupied']): Item[] {
  const inTheWay = occupied.filter((one) => boxesOverlap(one, block.box));
  const isCovered = (box: Box): boolean => inTheWay.some((one) => boxesOverlap(one, box));
  const turn = block.direction === 'across' ? 0 : Math.PI / 2;
  const labels = SCALES.map((scale) =>
    words(scale.label, pointOnBar(block, block.label * BAR_MM, labelBase(scale)), NOTE_MM, 'middle', turn),
  );
  return [
    ...barLine(block, isCovered),
    ...SCALES.flatMap((scale) => barTicks(block, scale, isCovered)),
    ...labels,
  ];
}

function barLine(block: BarBlock, isCovered: (box: Box) => boolean): Item[] {
  const count = Math.round(BAR_MM / PIECE_MM);
  const at = (i: number): number => (BAR_MM * i) / count;
  const pieces: [from: number, to: number][] = [];
  for (let i = 0; i < count; i++) {
    const last = pieces.at(-1);
    if (isCovered(boxOnBar(block, at(i), -0.1, at(i + 1), 0.1))) continue;
    if (last?.[1] === i) last[1] = i + 1;
    else pieces.push([i, i + 1]);
  }
  return pieces.map(([from, to]) =>
    polyline('rule', [pointOnBar(block, at(from), 0), pointOnBar(block, at(to), 0)]),
  );
}

const barTicks = (
  block: BarBlock,
  { length, ticks, side }: Scale,
  isCovered: (box: Box) => boolean,
): Item[] =>
  Array.from({ length: ticks + 1 }, (_, i) => i).flatMap((i) => {
    const along = (length * i) / ticks;
    const reach = side * (i === 0 || i === ticks ? END_TICK_MM : TICK_MM);
    if (isCovered(boxOnBar(block, along - 0.1, 0, along + 0.1, reach))) return [];
    return [polyline('rule', [pointOnBar(block, along, 0), pointOnBar(block, along, reach)])];
  });
