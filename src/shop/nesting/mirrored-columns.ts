import { type CopyPosition, columnHeight, mirrorColumn } from './copy-placement.ts';
import type { Separation } from './min-separation.ts';
import type { Stack } from './stacking.ts';

interface HandStack {
  /** Of one hand, every other copy turned end for end. */
  readonly stack: Stack;
  readonly separation: Separation;
}

/** The first hand's columns, then the second's; at most one, `room` mm high or less, has both. */
export function mirroredColumns(quantity: number, across: number, room: number, hands: HandStack) {
  const [first, second] = [Math.ceil(quantity / 2), Math.floor(quantity / 2)];
  const full = Math.floor(first / across);
  const rest = first % across;
  const both = rest > 0 ? fillWithBothHands(rest, Math.min(second, across - rest), room, hands) : [];
  const before = full + (rest > 0 ? 1 : 0);
  const left = second - Math.max(0, both.length - rest);
  return {
    count: before + Math.ceil(left / across),
    column: (number: number): readonly CopyPosition[] => {
      if (number < full) return hands.stack.places(across);
      if (number < before) return both;
      return mirrorColumn(hands.stack.places(Math.min(across, left - (number - before) * across)), 'across');
    },
  };
}

function fillWithBothHands(first: number, most: number, room: number, { stack, separation }: HandStack) {
  const below = stack.places(first);
  for (let second = most; second > 0; second--) {
    const column = lowestMixedColumn(below, stack.places(second), separation);
    if (columnHeight(column) <= room) return column;
  }
  return below;
}

function lowestMixedColumn(
  below: readonly CopyPosition[],
  own: readonly CopyPosition[],
  separation: Separation,
): CopyPosition[] {
  const columns = (['across', 'along'] as const).map((way) => {
    const above = mirrorColumn(own, way);
    const stepOver = (p: CopyPosition, q: CopyPosition): number =>
      p.y + separation(p.orientation, q.orientation, q.x - p.x) - q.y;
    const border = above.slice(0, BORDER_COPIES);
    const steps = below.slice(-BORDER_COPIES).flatMap((p) => border.map((q) => stepOver(p, q)));
    const step = Math.max(0, ...steps);
    return [...below, ...above.map((place) => ({ ...place, y: place.y + step }))];
  });
  return columns.reduce((a, b) => (columnHeight(b) < columnHeight(a) ? b : a));
}

/** Copies farther from the border lie behind others that lie as they do. */
const BORDER_COPIES = 3;
