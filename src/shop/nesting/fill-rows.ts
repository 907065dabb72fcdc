import { itemAt } from '../../units/checked.ts';
import type { CopyOrientation } from './copy-placement.ts';
import type { Separation } from './min-separation.ts';
import type { Arrangement } from './nesting-layouts.ts';

/** Copies are pushed one by one along `u`, in rows at fixed places of `v`: along the board, or across it. */
export interface Field {
  readonly along: boolean;
  readonly size: number;
  /** How far from the start a copy may lie along u, and from the first row along v, mm. */
  readonly reach: number;
  readonly room: number;
  /** Two copies this far apart along u, mm, do not touch whatever their rows. */
  readonly span: number;
  readonly exact: Separation;
  readonly rough: Separation;
  /** The lift along v of two copies shifted along u. */
  readonly sideways: Separation;
}

/** Rows spread evenly over the room; in a row every other copy lies `shift` to the side. */
export interface Rows {
  readonly count: number;
  readonly shift: number;
  /** Which of the two orientations comes first, a bit for the even rows and one for the odd ones. */
  readonly starts: number;
  /** The second of a pair lies so far behind the first along u, mm, and touches it sideways; absent: as near as it may. */
  readonly lag?: number;
}

export interface Spot {
  /** Grows while the copy waits for its turn. */
  u: number;
  readonly v: number;
  readonly orientation: CopyOrientation;
  readonly row: number;
}

export interface Filled {
  readonly placed: readonly Spot[];
  /** Where the first copy that finds no room would lie, mm: the less, the closer the others lie. */
  readonly next: number;
}

/** Copies left of either hand; where a part has no hands, all are of the first. */
export type Hands = readonly [number, number];
export const ANY_NUMBER: Hands = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];

export interface Wish {
  readonly way: Arrangement;
  readonly mirrored: boolean;
}

/** Places tried for a last single copy. */
const LAST_PLACES = 16;

export const isOver = (orientation: CopyOrientation): boolean => orientation.startsWith('over');

/** The two that take turns in a row; a hand that is used up makes way for the other. */
export function turnsOf(
  way: Arrangement,
  mirrored: boolean,
  [first, second]: Hands,
): readonly CopyOrientation[] {
  if (first <= 0 && second <= 0) return [];
  if (way === 'by-hand') return first > 0 ? ['same', 'turned'] : ['over', 'over-end'];
  if (mirrored && first <= 0) return [way, way];
  return mirrored && second <= 0 ? ['same', 'same'] : ['same', way];
}

/** Always the copy that lies nearest to the start; `thorough`: where no row takes one more, any place does. */
export function fill(
  field: Field,
  { way, mirrored }: Wish,
  { count, shift, starts, lag }: Rows,
  by: Separation,
  left: Hands,
  thorough = false,
): Filled {
  const pitch = (field.room - Math.abs(shift)) / Math.max(1, count - 1);
  const aside = [Math.max(0, -shift), Math.max(0, shift)] as const;
  const placed: Spot[] = [];
  const hands: [number, number] = [...left];
  const pair = turnsOf(way, mirrored, ANY_NUMBER);
  let turns = turnsOf(way, mirrored, hands);
  const spotAt = (orientation: CopyOrientation, v: number, row: number): Spot => ({
    orientation,
    v,
    row,
    u: placed.reduce((u, one) => behind(one, orientation, v, u), 0),
  });
  const behind = (one: Spot, orientation: CopyOrientation, v: number, u: number): number =>
    one.u + field.span <= u ? u : Math.max(u, one.u + by(one.orientation, orientation, v - one.v));
  const turnOf = Array.from({ length: count }, (_, row) => (starts >> (row % 2)) & 1);
  /** Where the next of either orientation would lie in each row. */
  const rowSpots = (): (readonly [Spot, Spot])[] =>
    turnOf.map((_, row) => [
      spotAt(turns[0] ?? 'same', row * pitch + aside[0], row),
      spotAt(turns[1] ?? 'same', row * pitch + aside[1], row),
    ]);
  let waiting = rowSpots();
  const place = (spot: Spot): void => {
    const lain = { ...spot };
    placed.push(lain);
    hands[mirrored && isOver(spot.orientation) ? 1 : 0] -= 1;
    turnOf[spot.row] = 1 - (turnOf[spot.row] ?? 0);
    const before = turns;
    turns = turnsOf(way, mirrored, hands);
    if (turns.some((one, i) => one !== before[i])) waiting = rowSpots();
    else
      for (const spots of waiting)
        for (const one of spots) one.u = behind(lain, one.orientation, one.v, one.u);
  };
  const pairSpot = ([first, second]: readonly [Spot, Spot], after: number): Spot => {
    const u = Math.max(first.u, second.u - after, -after);
    return { ...first, u: Math.max(u, u + after) > field.reach ? Number.POSITIVE_INFINITY : u };
  };
  const fits = ({ u }: Spot): boolean => u <= field.reach;
  const isPair = (): boolean => turns.length > 0 && turns.every((one, i) => one === pair[i]);
  for (;;) {
    if (turns.length === 0) return { placed, next: 0 };
    if (lag !== undefined && isPair()) {
      const first = nearestOf(waiting.map((spots) => pairSpot(spots, lag)));
      if (fits(first)) {
        place(first);
        // Behind the last of a hand nothing need follow.
        if (isPair())
          place({
            ...first,
            orientation: pair[1] ?? 'same',
            v: first.row * pitch + aside[1],
            u: first.u + lag,
          });
        continue;
      }
    }
    const preferred = nearestOf(waiting.map((spots, row) => itemAt(spots, turnOf[row] ?? 0)));
    let spot = preferred;
    if (!fits(spot)) spot = nearestOf(waiting.flat());
    if (!fits(spot) && thorough)
      spot = nearestOf(
        Array.from({ length: LAST_PLACES + 1 }, (_, k) => (k / LAST_PLACES) * field.room).flatMap((v) =>
          turns.map((orientation) => spotAt(orientation, v, 0)),
        ),
      );
    if (!fits(spot)) return { placed, next: preferred.u };
    place(spot);
  }
}

const nearestOf = (spots: readonly Spot[]): Spot => spots.reduce((a, b) => (b.u < a.u ? b : a));
