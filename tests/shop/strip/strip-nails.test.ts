import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Curve } from '../../../src/curves/curve.ts';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { freeRiseLimit } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { type CurvePoint, paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import {
  add,
  cross,
  direction,
  distance,
  leftNormal,
  type Point,
  point,
  scale,
  subtract,
} from '../../../src/curves/geometry/point.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { type SprungLine, sprungLine } from '../../../src/shop/strip/sprung-line.ts';
import {
  chooseTracedFace,
  type NailingOptions,
  nailCapacity,
  placeNails,
  type StripSide,
} from '../../../src/shop/strip/strip-nails.ts';
import { maxSafeThickness } from '../../../src/shop/wood/bending.ts';
import { SPECIES } from '../../../src/shop/wood/species.ts';
import { battenReactions, QUOTIENT_ERROR, shallowLine } from '../lines.ts';

const arch = shallowLine(1000, 50);
const nailing = (traced: StripSide): NailingOptions => ({
  thickness: 6,
  stiffness: 12300 * 450,
  diameter: 2.5,
  traced,
  overhang: 200,
});
const heights = (line: SprungLine, traced: StripSide): number[][] =>
  placeNails(line, nailing(traced)).map(({ centers }) => centers.map(({ y }) => y));

test('an arch has its nail below and the nails of its ends above', () => {
  const nails = placeNails(arch, nailing('left'));
  expect(nails.map(({ side }) => side)).toEqual(['left', 'right', 'left']);
  // 48·12300·450·50/1000³ (simple beam, centre load), half of it at each end
  expect(nails.map(({ force }) => force.toFixed(3))).toEqual(['6.642', '13.284', '6.642']);
});

test('a nail below a strip traced along its upper face is off by the strip and half its diameter', () => {
  expect(heights(arch, 'left')).toEqual([[1.25], [50 - 6 - 1.25], [1.25]]);
});

test('nails above a strip traced along its lower face are off by the strip and half their diameter', () => {
  expect(heights(arch, 'right')).toEqual([[6 + 1.25], [50 - 1.25], [6 + 1.25]]);
});

test('a hollow has the nails of an arch turned over', () => {
  const hollow = shallowLine(1000, -50);
  const flipped = heights(arch, 'left').map((ys) => ys.map((y) => -y));
  expect(heights(hollow, 'right')).toEqual(flipped);
});

test('nails on the far face are closer where the strip is thinner', () => {
  const pins = arch.pins.map((pin, i) => ({ ...pin, share: 1 - i / 4 }));
  // Half a taper: 6 · 3/4 = 4.5 mm at the nail.
  expect(heights({ ...arch, pins }, 'left')).toEqual([[1.25], [50 - 4.5 - 1.25], [1.25]]);
});

test('a nail is off a sloping line at a right angle', () => {
  const slope = Math.atan2(3, 4);
  const pins = arch.pins.map((pin) => ({ ...pin, angle: slope }));
  const [{ at, centers }] = placeNails({ ...arch, pins }, nailing('left')) as [
    ReturnType<typeof placeNails>[0],
  ];
  // 1.25 mm along (−3/5, 4/5)
  expect(centers[0]!.x - at.x).toBeCloseTo(-0.75, 12);
  expect(centers[0]!.y - at.y).toBeCloseTo(1, 12);
});

test('a held end is in a clamp on the straight beyond it, and a nail without load is on either side', () => {
  const idle = { ...arch.pins[1]!, reaction: 1e-20 };
  const start = { ...arch.pins[0]!, curvature: 0.0006 };
  const line: SprungLine = {
    ...arch,
    ends: ['held', 'free'],
    pins: [start, ...arch.pins.slice(1), idle, arch.pins[2]!],
  };
  const nails = placeNails(line, nailing('left'));
  expect(nails.map(({ side }) => side)).toEqual(['both', 'right', 'left', 'either', 'left']);
  expect(nails[0]!.centers).toEqual([]);
  const moment = expect.closeTo(12300 * 450 * 0.0006, 6);
  expect(nails[0]!.clamp).toEqual({ to: { x: -200, y: 0 }, length: 200, moment });
  expect(nails[3]!.centers).toHaveLength(2);
});

test('the traced face is the one with fewer nails between the ends', () => {
  const push = (...reactions: number[]) => reactions.map((reaction) => ({ ...arch.pins[0]!, reaction }));
  expect(chooseTracedFace(push(-1, 2, -1))).toBe('left');
  expect(chooseTracedFace(push(1, -2, 1))).toBe('right');
  expect(chooseTracedFace(push(-1, 2, -2, 1))).toBe('left');
  expect(chooseTracedFace(push(1, 2, -2, -9, 1))).toBe('right');
  expect(chooseTracedFace([])).toBe('left');
});

test('a 2.5 mm nail holds 98 N half-way up a strip 20 mm wide', () => {
  // Fyb = 130.4 − 213.9·(2.5/25.4) = 109.35 ksi = 753.9 MPa; M = 753.9·2.5³/6 = 1963 N·mm; M/2 over 10 mm
  expect(nailCapacity(2.5, 20)).toBeCloseTo(98.2, 1);
  expect(nailCapacity(2.5, 40)).toBeCloseTo(49.1, 1);
});

test('a thicker nail holds more', () => {
  const bears = [1, 2, 3, 5, 8, 12, 20].map((diameter) => nailCapacity(diameter, 20));
  expect(bears).toEqual(bears.toSorted((a, b) => a - b));
});

test('sprungLine refuses reactions that do not match the pins', () => {
  const curve = batten(point(0, 0), point(1000, 0), { nail: point(500, 50) });
  expect(() => sprungLine(curve, [1])).toThrow(TypeError);
});

test('sprungLine has the length, the tightest place and the slope at each pin', () => {
  const curve = batten(point(0, 0), point(1000, 0), { nail: point(300, 80) });
  const { length, worst, pins } = sprungLine(curve, [-1, 2, -1]);
  const { length: asMeasured, tightest, endAngles } = figuresOf(curve);
  expect([length, worst!.share / worst!.curvature, worst!.at]).toEqual([
    asMeasured,
    tightest!.radius,
    tightest!.at,
  ]);
  expect([pins[0]!.angle, pins[2]!.angle]).toEqual(endAngles.map((angle) => expect.closeTo(angle, 12)));
  expect(pins[1]!.angle).toBeCloseTo(paramCurve(curve.exact[1]!)(0).angle, 12);
});

/** How far the face strays, as a share of the line's rise: what the comment of `nailsFor` promises. */
const STRAYS = { among: 1 / 1000, nearAnEnd: 1 / 600 };
const STEPS = 400;
const off = ({ x, y, angle }: CurvePoint, by: number): Point =>
  add({ x, y }, scale(leftNormal(direction(angle)), by));
const placesOf = ({ exact }: Curve, steps: number): CurvePoint[] =>
  exact.flatMap((piece) => Array.from({ length: steps + 1 }, (_, i) => paramCurve(piece)(i / steps)));

/** The greatest distance of points from a line given by many of its places, mm: square off the circle there. */
function farthest(points: readonly Point[], line: readonly CurvePoint[]): number {
  const offLine = (p: Point): number => {
    const near = line.reduce((a, b) => (distance(b, p) < distance(a, p) ? b : a));
    const [way, gap] = [direction(near.angle), subtract(p, near)];
    return Math.abs(cross(way, gap) - (near.curvature / 2) * (gap.x * way.x + gap.y * way.y) ** 2);
  };
  return Math.max(...points.map(offLine));
}

test('property: the traced face of the thickest safe strip lies on the line, whatever the wood, the size and the nail', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(share, share, share, fc.constantFrom(...SPECIES), (size, where, high, species) => {
      const [chord, x] = [5 * 10_000 ** size, 0.01 * 99 ** where];
      const height = Math.min(0.003 * 100 ** high, 0.9 * freeRiseLimit(x)) * chord;
      const line = batten(point(0, 0), point(chord, 0), { nail: point(x * chord, height) });
      const { apex } = figuresOf(line);
      fc.pre(apex!.rise < chord / 3);
      const { pins, worst } = sprungLine(line, battenReactions(line));
      const thickness = maxSafeThickness(worst!.curvature, species);
      const most = x < 0.1 || x > 0.9 ? STRAYS.nearAnEnd : STRAYS.among;
      for (const half of [thickness / 2, -thickness / 2]) {
        // The middle of the strip is the batten over the pins moved off the line by half its thickness.
        const [a, n, b] = pins.map(({ at, angle }) => off({ ...at, angle, curvature: 0, speed: 0 }, half));
        const middle = batten(a!, b!, { nail: n! });
        const face = placesOf(middle, 12).map((place) => off(place, -half));
        expect(farthest(face, placesOf(line, STEPS))).toBeLessThan(most * apex!.rise);
      }
    }),
    { numRuns: 30 },
  );
});

test.each([point(500, 50), point(300, 80), point(250, 300), point(700, -120)])(
  'the nails of a batten hold it in balance, nail at %o',
  (nail) => {
    const line = batten(point(0, 0), point(1000, 0), { nail });
    const { pins } = sprungLine(line, battenReactions(line));
    const forces = pins.map(({ angle, reaction }) => scale(leftNormal(direction(angle)), reaction));
    const hardest = Math.max(...pins.map(({ reaction }) => Math.abs(reaction)));
    const sum = forces.reduce(add);
    const moment = forces.reduce((turn, force, i) => turn + cross(pins[i]!.at, force), 0);
    expect(Math.hypot(sum.x, sum.y) / hardest).toBeLessThan(QUOTIENT_ERROR);
    expect(Math.abs(moment) / (1000 * hardest)).toBeLessThan(QUOTIENT_ERROR);
  },
);
