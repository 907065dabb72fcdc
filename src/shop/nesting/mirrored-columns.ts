import type { Lie, Place } from './copy-placement.ts';
import type { LiftOf } from './separation-cache.ts';
import type { Stack } from './stacking.ts';

interface Hands {
  /** Copies of one hand, every other one turned end for end. */
  readonly stack: Stack;
  readonly lift: LiftOf;
}

/** Columns of a mirrored part with each hand for itself, the first before the second; only one column has both. */
export interface HandColumns {
  readonly count: number;
  readonly column: (number: number) => readonly Place[];
}

/**
 * @param across how many of one hand lie in a column
 * @param room the height (see `Stack`) that a column of both hands may take, mm
 */
export function handColumns(quantity: number, across: number, room: number, hands: Hands): HandColumns {
  const [first, second] = [Math.ceil(quantity / 2), Math.floor(quantity / 2)];
  const full = Math.floor(first / across);
  const rest = first % across;
  const both = rest > 0 ? fullestOfBoth(rest, Math.min(second, across - rest), room, hands) : [];
  const before = full + (rest > 0 ? 1 : 0);
  const left = second - Math.max(0, both.length - rest);
  return {
    count: before + Math.ceil(left / across),
    column: (number) => {
      if (number < full) return ofOneHand(across, hands);
      if (number < before) return both;
      return mirrored(ofOneHand(Math.min(across, left - (number - before) * across), hands), 'across');
    },
  };
}

export const heightOf = (column: readonly Place[]): number => column.at(-1)?.y ?? 0;

/** So many of the first hand, and above them as many of the second, up to the most, as the room takes. */
function fullestOfBoth(first: number, most: number, room: number, hands: Hands): readonly Place[] {
  const below = ofOneHand(first, hands);
  for (let second = most; second > 0; second--) {
    const column = lowestOfBoth(below, ofOneHand(second, hands), hands.lift);
    if (heightOf(column) <= room) return column;
  }
  return below;
}

const ofOneHand = (copies: number, { stack }: Hands): Place[] =>
  stack.places(copies).map(({ x, y, other }) => ({ x, y, lie: other ? 'turned' : 'same' }));

/** The mirror image of copies, laid above them, whichever way is lower. */
function lowestOfBoth(below: readonly Place[], own: readonly Place[], lift: LiftOf): Place[] {
  const columns = (['across', 'along'] as const).map((way) => {
    const above = mirrored(own, way);
    const step = Math.max(
      0,
      ...below
        .slice(-NEAR)
        .flatMap((p) => above.slice(0, NEAR).map((q) => p.y + lift(p.lie, q.lie, q.x - p.x) - q.y)),
    );
    return [...below, ...above.map((place) => ({ ...place, y: place.y + step }))];
  });
  return columns.reduce((a, b) => (heightOf(b) < heightOf(a) ? b : a));
}

/** Copies farther from the border than the third lie behind others that lie as they do. */
const NEAR = 3;

const OTHER_HAND: Readonly<Record<'across' | 'along', Readonly<Record<Lie, Lie>>>> = {
  across: { same: 'over', turned: 'over-end', over: 'same', 'over-end': 'turned' },
  along: { same: 'over-end', turned: 'over', over: 'turned', 'over-end': 'same' },
};

/** A column seen in a mirror that exchanges its top and its foot, or its left and its right; lowest copy first. */
function mirrored(column: readonly Place[], way: 'across' | 'along'): Place[] {
  const [length, height] = [Math.max(...column.map(({ x }) => x)), heightOf(column)];
  const lie = (place: Place): Lie => OTHER_HAND[way][place.lie];
  return way === 'along'
    ? column.map((place) => ({ x: length - place.x, y: place.y, lie: lie(place) }))
    : column.map((place) => ({ x: place.x, y: height - place.y, lie: lie(place) })).reverse();
}
