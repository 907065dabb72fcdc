import { describe, expect, test } from 'vitest';
import { cachedSeparation, type Separation } from '../../../src/shop/nesting/min-separation.ts';
import { type Nesting, nest } from '../../../src/shop/nesting/nest-copies.ts';
import type { NestingOptions } from '../../../src/shop/nesting/nesting-layouts.ts';
import { type Footprint, footprintOf } from '../../../src/shop/stock/footprint.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { allCopies, KERF, mustKeepApart, wishFor } from '../laid.ts';

/** Steps that are the same on every run, from 0 to 1. */
function steps(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2 ** 31;
    return state / 2 ** 31;
  };
}

/** A bow, an S or a wedge, now slender, now stout. */
function curvyPart(next: () => number, kind: number) {
  const [length, width] = [100 + next() * 500, 20 + next() * 60];
  const [rise, lean] = [(next() - 0.5) * 0.7 * length, (next() - 0.5) * 0.9 * length];
  const edge = (up: number): string => {
    if (kind % 3 === 0) return `[0, ${up}]\n    - arc: [${length}, ${up}]\n      rise: ${rise}`;
    if (kind % 3 === 2)
      return up === 0
        ? `[0, 0]\n    - line: [${length}, 0]`
        : `[0, ${up}]\n    - batten: [${length}, ${2 * up}]\n      through: [${0.4 * length}, ${0.9 * up}]`;
    const [a, b] = [0.1 * lean + up, 0.9 * lean + up];
    return `[0, ${up}]\n    - spline: [${length}, ${lean + up}]\n      through: [[${0.3 * length}, ${a}], [${0.7 * length}, ${b}]]\n      ends: natural`;
  };
  return partOf(
    `part: P\nunits: mm\nedges:\n  a:\n    - from: ${edge(0)}\n  b:\n    - from: ${edge(width)}\n`,
  );
}

/** The most copies in rows of pairs, one of each turned end for end: any shift, any row, in steps of half a millimeter. */
function pairsTurned(footprint: Footprint, { length, width }: { length: number; width: number }): number {
  const stepped = (separation: Separation): Separation => {
    const known = new Map<string, number>();
    return (a, b, shift) => {
      const place = Math.round(2 * shift);
      const key = `${a} ${b} ${place}`;
      const found = known.get(key) ?? separation(a, b, place / 2);
      known.set(key, found);
      return found;
    };
  };
  const along = stepped(cachedSeparation(footprint, KERF, 'along'));
  const across = stepped(cachedSeparation(footprint, KERF, 'across'));
  const up = (mm: number): number => Math.ceil(2 * mm) / 2;
  const [room, reach] = [width - footprint.width, length - footprint.length];
  let most = 1;
  for (let i = -20; i <= 20; i++) {
    const [dy, dx] = [up((i / 20) * room), up((i / 20) * Math.min(reach, footprint.length))];
    const pairs = [
      [up(along('same', 'turned', dy)), dy],
      [dx, up(across('same', 'turned', dx))],
      [dx, -up(across('turned', 'same', -dx))],
    ] as const;
    for (const [ahead, aside] of pairs) {
      if (!(Math.abs(aside) <= room && Math.abs(ahead) <= reach)) continue;
      const two = [
        [0, 0, 'same'],
        [ahead, aside, 'turned'],
      ] as const;
      const both = two.flatMap((one) => two.map((other) => [one, other] as const));
      const pitch = up(Math.max(...both.map(([[x, y, a], [u, v, b]]) => x - u + along(a, b, v - y))));
      if (pitch <= 1) continue;
      const inRow = (start: number): number => {
        let count = 0;
        for (let x = start - Math.min(0, ahead); x + Math.min(0, ahead) <= reach; x += pitch)
          count += [x, x + ahead].filter((at) => at >= 0 && at <= reach).length;
        return count;
      };
      for (let k = 0; k < 6; k++) {
        const shift = up((k / 6) * pitch);
        const turns = Math.ceil((2 * footprint.length) / pitch) + 1;
        const lifts = both.flatMap(([[x, y, a], [u, v, b]]) =>
          Array.from({ length: 2 * turns + 1 }, (_, n) => (n - turns) * pitch).flatMap((more) =>
            [shift, -shift].map((by) => y - v + across(a, b, u - x + by + more)),
          ),
        );
        const rowPitch = up(Math.max(1, ...lifts));
        let count = 0;
        for (let row = 0; Math.abs(aside) + row * rowPitch <= room; row++)
          count += inRow(row % 2 === 0 ? 0 : shift);
        most = Math.max(most, count);
      }
    }
  }
  return most;
}

const lay = (footprint: Footprint, part: ReturnType<typeof partOf>, more: Partial<NestingOptions>): Nesting =>
  nest(footprint, wishFor(part, more));

describe('rows pushed into each other', () => {
  const bracket = samplePart('wall-shelf-bracket.yaml');
  const footprint = footprintOf(bracket, 0);

  test.each([
    [5, 1270, 304.8, 8, 1],
    [3, 508, 304.8, 3, 1],
    [5, 304.8, 1270, 8, 1],
  ])(
    '%i brackets on boards of %d by %d mm: %i or more fit on one',
    (quantity, length, width, least, boards) => {
      const nesting = lay(footprint, bracket, { quantity, board: { length, width } });
      expect(nesting.perBoard).toBeGreaterThanOrEqual(least);
      expect(nesting.boards).toBe(boards);
      mustKeepApart(bracket, nesting);
      // A full board keeps them apart, too.
      mustKeepApart(
        bracket,
        lay(footprint, bracket, { quantity: nesting.perBoard, board: { length, width } }),
      );
    },
  );

  test.each(Array.from({ length: 4 }, (_, i) => i + 1))(
    'curvy part %i lies as close as pairs turned end for end, and clear, on any board',
    { timeout: 60_000 },
    (kind) => {
      const next = steps(kind + 1);
      for (let warm = 0; warm < 5; warm++) next();
      const part = curvyPart(next, kind);
      const own = footprintOf(part, 0);
      for (let i = 0; i < 4; i++) {
        const board = { length: own.length * (1 + 3 * next()), width: own.width * (1 + 2 * next()) };
        const handed = i % 2 === 0;
        const nesting = lay(own, part, { quantity: 4, handed, board });
        const most = pairsTurned(own, board);
        expect(nesting.perBoard).toBeGreaterThanOrEqual(most);
        expect(nesting.boards).toBe(Math.ceil(4 / nesting.perBoard));
        const full = lay(own, part, { quantity: nesting.perBoard, handed, board });
        expect(full.boards).toBe(1);
        mustKeepApart(part, full);
        if (handed) expect(allCopies(full).some(({ over }) => over)).toBe(false);
      }
    },
  );

  test.each(Array.from({ length: 6 }, (_, i) => i))(
    'mirrored copies of curvy part %i are half of either hand, and clear',
    { timeout: 60_000 },
    (kind) => {
      const next = steps(kind + 50);
      for (let warm = 0; warm < 5; warm++) next();
      const part = curvyPart(next, kind);
      const own = footprintOf(part, 0);
      for (const quantity of [2, 6, 8]) {
        const board = { length: own.length * (1 + 2 * next()), width: own.width * (1 + 2 * next()) };
        const nesting = lay(own, part, { quantity, handed: true, mirrored: true, board });
        const copies = allCopies(nesting);
        expect([copies.length, copies.filter(({ over }) => over).length]).toEqual([
          quantity,
          Math.floor(quantity / 2),
        ]);
        expect(nesting.boards).toBeLessThanOrEqual(nesting.rectangles.boards);
        mustKeepApart(part, nesting);
      }
    },
  );
});
