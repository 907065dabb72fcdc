import type { Curve } from '../../../src/curves/curve.ts';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { fairnessOf } from '../../../src/curves/fairness/fairness.ts';
import { type Point, point } from '../../../src/curves/geometry/point.ts';
import { spline } from '../../../src/curves/simple/spline.ts';
import { IN, seeded } from '../../check/bench.ts';

/*
 * Lines of known truth: nails set out along a smooth curve, and the same with one nail moved by a bump. A smooth line is
 * to be called fair, one with a bump is not.
 */

const CHORD = 30 * IN;

/** The height of a smooth line over a share u of the chord. */
const SHAPES = {
  arc: (u: number, rise: number): number => {
    const radius = (CHORD ** 2 / 4 + rise ** 2) / (2 * rise);
    return Math.sqrt(radius ** 2 - (CHORD * (u - 0.5)) ** 2) - (radius - rise);
  },
  parabola: (u: number, rise: number): number => 4 * rise * u * (1 - u),
  'batten over one nail': (u: number, rise: number): number =>
    rise * (u < 0.5 ? 3 * u - 4 * u ** 3 : 3 * (1 - u) - 4 * (1 - u) ** 3),
  'half wave': (u: number, rise: number): number => rise * Math.sin(Math.PI * u),
  'leaning wave': (u: number, rise: number): number =>
    rise * Math.sin(Math.PI * u) * (1 + 0.3 * Math.cos(Math.PI * u)),
  'top of an ellipse': (u: number, rise: number): number =>
    (rise * (overEllipse(u) - overEllipse(0))) / (1 - overEllipse(0)),
  'S wave': (u: number, rise: number): number => (rise / 2) * Math.sin(2 * Math.PI * u),
  'uneven S': (u: number, rise: number): number =>
    (rise / 4) * Math.sin(Math.PI * u) + (rise / 2) * Math.sin(2 * Math.PI * u),
} as const;

/** The middle 85 % of half an ellipse; what lies beyond is too steep for nails set out by stations. */
const overEllipse = (u: number): number => Math.sqrt(1 - (0.85 * (2 * u - 1)) ** 2);

export type Shape = keyof typeof SHAPES;

export interface LineSet {
  readonly shapes?: readonly Shape[];
  /** Shares of the chord. */
  readonly rises: readonly number[];
  /** Nails between the two ends. */
  readonly nails: readonly number[];
  /** What each offset is rounded to, mm; 0 for exact ones. */
  readonly graduation: number;
  readonly seeds: number;
}

export interface LineCase {
  readonly smooth: Curve;
  /** The same line with one nail moved out of it, by this much, mm. */
  readonly bumped: (by: number) => Curve;
  readonly movedStation: number;
}

/** Nails are unevenly spaced by up to a third of their distance; every other line is a spline through the same points. */
export function* lineCases({ shapes, rises, nails, graduation, seeds }: LineSet): Generator<LineCase> {
  for (const shape of shapes ?? (Object.keys(SHAPES) as Shape[]))
    for (const rise of rises)
      for (const count of nails)
        for (let seed = 1; seed <= seeds; seed++) {
          const random = seeded(1000 * count + seed + Math.round(rise * 1e5));
          const pins = pinsAlong((u) => SHAPES[shape](u, rise * CHORD), count, graduation, random);
          const moved = 1 + Math.floor(random() * count);
          const way = random() < 0.5 ? 1 : -1;
          yield {
            smooth: draw(pins, seed),
            bumped: (by) =>
              draw(
                pins.map((p, i) => (i === moved ? point(p.x, p.y + way * by) : p)),
                seed,
              ),
            movedStation: pins[moved]!.x,
          };
        }
}

function pinsAlong(
  height: (u: number) => number,
  count: number,
  graduation: number,
  random: () => number,
): Point[] {
  return Array.from({ length: count + 2 }, (_, i) => {
    if (i === 0 || i === count + 1) return point((i / (count + 1)) * CHORD, 0);
    const u = (i + (random() - 0.5) / 3) / (count + 1);
    const y = height(u);
    return point(u * CHORD, graduation > 0 ? Math.round(y / graduation) * graduation : y);
  });
}

const draw = (pins: readonly Point[], seed: number): Curve =>
  seed % 2 === 0
    ? spline(pins, 'natural', 'natural')
    : batten(pins[0]!, pins.at(-1)!, { through: pins.slice(1, -1) });

const codesOf = (line: Curve): string[] => fairnessOf([line]).remarks.map(({ code }) => code);

/** Fair, and nothing else said. */
export const isFair = (line: Curve): boolean => codesOf(line).includes('fairness.fair');

/** The rank of the verdict: 0 fair, 1 fair as far as the nails show, 2 doubtful, 3 not fair. */
export function rankOf(line: Curve): 0 | 1 | 2 | 3 {
  const codes = codesOf(line);
  if (codes.includes('fairness.fair')) return 0;
  if (codes.includes('fairness.fair-so-far')) return 1;
  return codes.includes('fairness.doubtful') ? 2 : 3;
}

/** The station of the nail or point that is called odd. */
export const oddStation = (line: Curve): number | undefined =>
  fairnessOf([line]).remarks.find(({ code }) => code === 'fairness.odd-point')?.at?.x;

/** How often something holds, percent. */
export function percent<T>(cases: Iterable<T>, holds: (each: T) => boolean): number {
  let [all, held] = [0, 0];
  for (const each of cases) {
    all++;
    if (holds(each)) held++;
  }
  return (100 * held) / all;
}
