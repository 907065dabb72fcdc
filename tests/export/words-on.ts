import { type Affine, invert, transformPoint, translate } from '../../src/curves/geometry/affine.ts';
import type { Box } from '../../src/curves/geometry/bounds.ts';
import type { Chord } from '../../src/curves/geometry/flatten.ts';
import { cross, type Point, point, subtract } from '../../src/curves/geometry/point.ts';
import type { Item, Stroke, Words } from '../../src/export/drawing/drawing.ts';
import { CAP_HEIGHT, textWidth, widthWithFractions } from '../../src/export/drawing/text-width.ts';

export const wordsOf = (items: readonly Item[]): Words[] => items.filter((item) => item.type === 'words');
export const strokesOf = (items: readonly Item[]): Stroke[] => items.filter((item) => item.type === 'stroke');

/** A sheet's name stands on the line as a whole, but for the tails of J and Q. */
const STANDS = /^\d+[A-IK-PR-Z]+m?$/;

/** The words' box in their own frame (baseline level, start at 0), and the way into it. */
export function wordsFrame({ text, at, size, anchor, turn = 0, fractions }: Words): {
  box: Box;
  into: Affine;
} {
  const width = fractions === undefined ? textWidth(text, size) : widthWithFractions(text, size, fractions);
  const high = Math.max(size, text.includes('\u2044') ? (fractions ?? 0) : 0) * CAP_HEIGHT;
  const left = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const into = invert(translate([cos, sin, -sin, cos, 0, 0], at.x, at.y));
  const bottom = STANDS.test(text) ? 0 : -size * 0.2;
  return { box: { left, right: left + width, bottom, top: high }, into };
}

export const moved = (chords: readonly Chord[], by: Affine): Chord[] =>
  chords.map(({ from, to }) => ({ from: transformPoint(by, from), to: transformPoint(by, to) }));

/** A rectangle's corners back on the sheet, as its box. */
export function boxOnSheet(words: Words): Box {
  const { box, into } = wordsFrame(words);
  const out = invert(into);
  const corners: Point[] = [
    point(box.left, box.bottom),
    point(box.right, box.bottom),
    point(box.left, box.top),
    point(box.right, box.top),
  ].map((corner) => transformPoint(out, corner));
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) };
}

/** Whether two straight stretches cross, not merely touch. */
export function crosses(a: Chord, b: Chord): boolean {
  const side = ({ from, to }: Chord, p: Point): number => cross(subtract(to, from), subtract(p, from));
  return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}
