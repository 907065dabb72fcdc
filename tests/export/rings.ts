import type { Point } from '../../src/curves/geometry/point.ts';

/** A page as dots: darkness from 0 (white) to 255 (black), row by row from the top. */
export interface Dots {
  readonly width: number;
  readonly height: number;
  readonly dark: Uint8Array;
}

const ANGLES = Array.from({ length: 64 }, (_, i) => ((i + 0.5) * 2 * Math.PI) / 64);

const darkAt = ({ width, height, dark }: Dots, x: number, y: number): number => {
  const [i, j] = [Math.round(x), Math.round(y)];
  return i >= 0 && j >= 0 && i < width && j < height ? (dark[j * width + i] ?? 0) : 0;
};

/** A dot counts as ink from here on: a thin line spread over two dots is at least half as dark. */
const INK = 60;

/** Of the ring's directions, those that must show ink within a dot of its radius. */
const SHARE = 0.95;

/**
 * Centres of the rings of some radius in a picture, found by looking at its dots alone: first every dot
 * that has ink all round at that distance and white between, then the circle fitted through the ink.
 */
export function findRings(dots: Dots, radius: number): Point[] {
  const found: Point[] = [];
  for (let y = radius; y < dots.height - radius; y += 1)
    for (let x = radius; x < dots.width - radius; x += 1) {
      if (!looksLikeRing(dots, x, y, radius)) continue;
      const at = fitted(dots, { x, y }, radius);
      if (!found.some((other) => Math.hypot(other.x - at.x, other.y - at.y) < radius)) found.push(at);
    }
  return found;
}

function looksLikeRing(dots: Dots, x: number, y: number, radius: number): boolean {
  // A cross stands in the ring's middle: most dots of a page fail here at once.
  if (darkAt(dots, x, y) < INK && darkAt(dots, x + 1, y) < INK && darkAt(dots, x, y + 1) < INK) return false;
  let [ink, white] = [0, 0];
  for (const angle of ANGLES) {
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    if ([-1, 0, 1].some((d) => darkAt(dots, x + (radius + d) * cos, y + (radius + d) * sin) >= INK)) ink++;
    if (darkAt(dots, x + 0.6 * radius * cos, y + 0.6 * radius * sin) < INK) white++;
  }
  return ink >= SHARE * ANGLES.length && white >= 0.8 * ANGLES.length;
}

/** The centre moved until the ink lies as far from it on one side as on the other. */
function fitted(dots: Dots, start: Point, radius: number): Point {
  let at = start;
  for (let round = 0; round < 20; round++) {
    let [sumX, sumY] = [0, 0];
    for (const angle of ANGLES) {
      const off = inkRadius(dots, at, angle, radius) - radius;
      sumX += off * Math.cos(angle);
      sumY += off * Math.sin(angle);
    }
    at = { x: at.x + (2 * sumX) / ANGLES.length, y: at.y + (2 * sumY) / ANGLES.length };
  }
  return at;
}

/** How far out the ink lies in one direction, by its weight, in steps of a quarter dot. */
function inkRadius(dots: Dots, { x, y }: Point, angle: number, radius: number): number {
  let [weight, moment] = [0, 0];
  for (let r = radius - 3; r <= radius + 3; r += 0.25) {
    const dark = darkAt(dots, x + r * Math.cos(angle), y + r * Math.sin(angle));
    weight += dark;
    moment += dark * r;
  }
  return weight === 0 ? radius : moment / weight;
}
