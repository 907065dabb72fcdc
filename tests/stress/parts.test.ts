import { expect, test } from 'vitest';
import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { Piece, Segment } from '../../src/curves/geometry/pieces/piece.ts';
import type { Point } from '../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../src/curves/geometry/tolerance.ts';
import { templateOf } from '../../src/part/derived/router-template.ts';
import { lowerFirst } from '../../src/part/edge.ts';
import { volumeOf } from '../../src/part/outline/area-and-volume.ts';
import type { Part, PartEdge } from '../../src/part/part.ts';
import { finishedLine } from '../../src/part/part-lines.ts';
import { faultsOf } from '../fuzz/answers.ts';
import { Random, ROUNDS } from '../fuzz/random.ts';
import { spread } from './cases.ts';
import { anyPart } from './part-cases.ts';
import { sagitta, slowDistance } from './slow.ts';

/** Twenty rounds are a hundred of each. */
const A_ROUND = 5;

function each(holds: (part: Part, random: Random, told: string) => void): void {
  let good = 0;
  for (let i = 0; i < A_ROUND * ROUNDS; i++) {
    const random = new Random(i);
    faultsOf(() => {
      holds(anyPart(random), random, `case ${i} of this seed`);
      good++;
    });
  }
  expect(good).toBeGreaterThan((A_ROUND * ROUNDS) / 2);
}

const placesOn = (pieces: readonly Piece[], each: number): Point[] =>
  pieces.flatMap((piece) => Array.from({ length: each }, (_, i) => paramCurve(piece)(i / each)));

/** Places on a whole path that are measured. */
const MEASURED = 40;

/** That a path lies at a distance from a line; at a corner no farther than √2 of it. */
function expectAway(path: readonly Segment[], line: readonly Piece[], away: number, told: string): void {
  const places = placesOn(path, 4);
  const every = Math.ceil(places.length / MEASURED);
  const off = places.filter((_, i) => i % every === 0).map(slowDistance(line));
  const slack = 2 * FIT_MM + Math.max(...line.map(sagitta));
  expect(Math.min(...off), told).toBeGreaterThan(away - slack);
  expect(Math.max(...off), told).toBeLessThan(away * Math.SQRT2 + slack);
}

test('the line to saw, and a template inside or outside, lie at their distance, or are refused', () => {
  each((part, random, told) => {
    expectAway(part.saw, part.exact, part.sawAllowance, told);
    const bit = part.bounds.right * spread(random, 0.002, 0.02);
    const guideDiameter = bit * (1 + spread(random, 0.05, 2));
    const opening = random.next() < 0.5;
    const template = templateOf(part, { guide: 'bush', guideDiameter, bitDiameter: bit, opening });
    // Where the guide touches the template, the bit touches the part: half of either from the guide's middle.
    const away = guideDiameter / 2 - bit / 2;
    expectAway(finishedLine(template.part.shape), part.exact, away, told);
  });
});

/** What is left of a polygon where a cut does not reach. */
const kept = (polygon: readonly Point[], past: (p: Point) => number): Point[] =>
  polygon.flatMap((p, i) => {
    const q = polygon[(i + 1) % polygon.length]!;
    const [a, b] = [past(p), past(q)];
    const share = a / (a - b);
    const at = { x: p.x + share * (q.x - p.x), y: p.y + share * (q.y - p.y) };
    return [...(a <= 0 ? [p] : []), ...(a * b < 0 ? [at] : [])];
  });

/** Area by the shoelace formula, and its moments. */
const momentsOf = (polygon: readonly Point[]): [number, number, number] =>
  polygon.reduce<[number, number, number]>(
    ([area, x, y], p, i) => {
      const q = polygon[(i + 1) % polygon.length]!;
      const z = (p.x * q.y - q.x * p.y) / 2;
      return [area + z, x + (z * (p.x + q.x)) / 3, y + (z * (p.y + q.y)) / 3];
    },
    [0, 0, 0],
  );

const SLICES = 24;

/** Volume and balance of a part cut into slices, each of them the edges' own polygon less what its two ends cut off. */
function slowSolid({ edges, ends, stock }: Part): { volume: number; x: number; y: number } {
  const [lower, upper] = lowerFirst(edges as [PartEdge, PartEdge]);
  const polygon = [...placesOn(lower.pieces, 100), lower.runs.at(-1)!.to];
  polygon.push(...[...placesOn(upper.pieces, 100), upper.runs.at(-1)!.to].reverse());
  const thickness = stock!.thickness!;
  const cuts = ([-1, 1] as const).map((out) => {
    const { rake, splay } = ends![out < 0 ? 0 : 1].angles;
    const [across, through] = [Math.tan(rake), Math.tan(splay)];
    const tips = [lower, upper].map(({ runs }) => (out < 0 ? runs[0]!.from : runs.at(-1)!.to));
    const far = ({ x, y }: Point, depth: number): number => out * (x + across * y - through * depth);
    // The long point of either face stands at the last station.
    const least = Math.min(...tips.flatMap((tip) => [far(tip, 0), far(tip, thickness)]));
    return (depth: number) => (p: Point) => far(p, depth) - least;
  });
  const slices = Array.from({ length: SLICES }, (_, i) => {
    const depth = ((i + 0.5) / SLICES) * thickness;
    return momentsOf(cuts.reduce((left, cut) => kept(left, cut(depth)), polygon));
  });
  const [area, x, y] = [0, 1, 2].map((k) => slices.reduce((sum, one) => sum + one[k]!, 0)) as [
    number,
    number,
    number,
  ];
  return { volume: (area * thickness) / SLICES, x: x / area, y: y / area };
}

/** What `volumeOf` promises, as a share of the volume and of the length. */
const SHAVING = 1 / 300;

test('volume and balance are those of the part cut into slices', () => {
  each((part, _, told) => {
    const { volume, centroid } = volumeOf(part)!;
    const slow = slowSolid(part);
    expect(Math.abs(volume / slow.volume - 1), told).toBeLessThan(SHAVING);
    const off = Math.hypot(centroid.x - slow.x, centroid.y - slow.y);
    expect(off / (part.bounds.right - part.bounds.left), told).toBeLessThan(SHAVING);
  });
});
