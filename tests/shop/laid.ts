import { expect } from 'vitest';
import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { Segment } from '../../src/curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../src/curves/geometry/point.ts';
import { faceOf } from '../../src/part/outline/area-and-volume.ts';
import type { Part } from '../../src/part/part.ts';
import { finishedLine } from '../../src/part/part-lines.ts';
import { type Copy, onBoard } from '../../src/shop/nesting/copy-placement.ts';
import type { Nesting } from '../../src/shop/nesting/nest-copies.ts';
import type { NestingOptions } from '../../src/shop/nesting/nesting-layouts.ts';

export const KERF = 3;

/** How far a chord between two places may lie from its curve, mm: a tenth of what a gap may be short of. */
const SAG_MM = 0.003;

/** Places along closed paths, near enough that what lies between two of them is not missed. */
export function placesOn(paths: readonly (readonly Segment[])[], spacing: number): Point[] {
  return paths.flat().flatMap((segment) => {
    const at = paramCurve(segment);
    const { speed } = at(0.5);
    // An S is straight in its middle.
    const curvature = Math.max(...[0, 0.25, 0.5, 0.75, 1].map((u) => Math.abs(at(u).curvature)));
    const chord = Math.min(spacing, Math.sqrt((8 * SAG_MM) / curvature));
    const count = Math.max(1, Math.ceil(speed / chord));
    return Array.from({ length: count }, (_, i): Point => {
      const { x, y } = at(i / count);
      return point(x, y);
    });
  });
}

/** Places on outlines lie no farther apart than this, mm. */
const SPACING_MM = 8;

/** How near two outlines come: each place of one to each short chord of the other. Brute force. */
export function nearest(a: readonly Point[], b: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const p of a)
    for (let i = 0; i < b.length; i++) {
      const [q, r] = [b[i]!, b[(i + 1) % b.length]!];
      const [dx, dy] = [r.x - q.x, r.y - q.y];
      if (Math.min(Math.abs(q.y - p.y), Math.abs(r.y - p.y)) > least + SPACING_MM) continue;
      const u = Math.min(1, Math.max(0, ((p.x - q.x) * dx + (p.y - q.y) * dy) / (dx * dx + dy * dy || 1)));
      least = Math.min(least, Math.hypot(p.x - q.x - u * dx, p.y - q.y - u * dy));
    }
  return least;
}

/** Whether a place lies inside a closed polygon. */
export function isWithin(polygon: readonly Point[], { x, y }: Point): boolean {
  let inside = false;
  polygon.forEach((p, i) => {
    const q = polygon[(i + 1) % polygon.length]!;
    if (p.y > y !== q.y > y && x < p.x + ((y - p.y) / (q.y - p.y)) * (q.x - p.x)) inside = !inside;
  });
  return inside;
}

const lineToSaw = (part: Part): readonly Segment[] =>
  part.saw.length > 0 ? part.saw : finishedLine(part.shape);

export const wishFor = (part: Part, more: Partial<NestingOptions> = {}): NestingOptions => ({
  quantity: 2,
  area: faceOf(finishedLine(part.shape)).area,
  handed: false,
  mirrored: false,
  kerf: KERF,
  between: 0,
  board: { length: 3000 },
  ...more,
});

type LaidOut = Pick<Nesting, 'board' | 'gap' | 'boards' | 'copiesOn'>;

/** Board after board. */
export const allCopies = ({ boards, copiesOn }: Nesting): Copy[] =>
  Array.from({ length: boards }, (_, i) => copiesOn(i + 1)).flat();

/** On each board every two copies keep the gap, none lies in another, and all lie on the board. */
export function mustKeepApart(part: Part, nesting: LaidOut): void {
  for (let number = 1; number <= nesting.boards; number++)
    mustKeepApartOn(part, nesting, nesting.copiesOn(number));
}

function mustKeepApartOn(part: Part, { board, gap }: LaidOut, copies: readonly Copy[]): void {
  expect(copies).not.toHaveLength(0);
  const laid = copies.map((copy) => placesOn([onBoard(copy, lineToSaw(part))], SPACING_MM));
  const inside = laid.flat().map(({ x, y }) => Math.min(x, y, board.length - x, board.width - y));
  expect(Math.min(...inside)).toBeGreaterThan(-1e-4);
  laid.forEach((one, i) => {
    for (const other of laid.slice(i + 1)) {
      expect(nearest(one, other)).toBeGreaterThan(gap - 0.03);
      expect(isWithin(other, one[0]!)).toBe(false);
    }
  });
}
