import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { TaperedSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import { pinPushes } from '../../../src/curves/geometry/pieces/tapered-series.ts';
import { add, direction, leftNormal, type Point, point, scale } from '../../../src/curves/geometry/point.ts';
import type { Part } from '../../../src/part/part.ts';
import { adviseStrips, mostStrained, type RunAdvice } from '../../../src/shop/strip/part-strips.ts';
import type { StripOptions } from '../../../src/shop/strip/strip-advice.ts';
import { bendingModulus, stripStiffness } from '../../../src/shop/wood/bending.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { partOf, SAMPLES, samplePart } from '../../part/jobs.ts';

const inMm: StripOptions = { species: findSpecies('white oak'), rule: defaultRule('mm') };
const SIZED = { ...inMm, thickness: 5, width: 20 };

const brace = (steps: string): Part =>
  partOf(`part: Brace\nunits: mm\nedges:\n  brace:\n    - from: [0, 0]\n    - ${steps}\n`);

const batten = (rest: string, end = '[600, 0]'): Part => brace(`batten: ${end}\n      ${rest}`);

const only = (part: Part, ask: StripOptions = SIZED): RunAdvice => adviseStrips(part, ask)[0];

/** What every nail pushes the strip with, N, from its side and the strip's direction there. */
const pushes = ({ line, advice }: RunAdvice): Point[] =>
  advice.nails.map(({ force, side }, i) =>
    scale(
      leftNormal(direction(line.pins[i]!.angle)),
      side === 'right' ? force : side === 'left' ? -force : 0,
    ),
  );

const total = (forces: readonly Point[]): Point => forces.reduce(add, point(0, 0));

const moment = ({ line }: RunAdvice, forces: readonly Point[]): number =>
  forces.reduce((sum, { x, y }, i) => sum + line.pins[i]!.at.x * y - line.pins[i]!.at.y * x, 0);

/** What rounding and the search of the shape leave of a balance, as a share of the greatest push. */
const BALANCE = 1e-7;

const greatest = (forces: readonly Point[]): number =>
  Math.max(...forces.map(({ x, y }) => Math.hypot(x, y)));

/** Forces on a strip 600 mm long that is at rest: no push is left, nor a turn. */
function expectAtRest(run: RunAdvice, forces: readonly Point[]): void {
  const most = greatest(forces);
  expect(most).toBeGreaterThan(0);
  const { x, y } = total(forces);
  expect(Math.hypot(x, y) / most).toBeLessThan(BALANCE);
  expect(Math.abs(moment(run, forces)) / (600 * most)).toBeLessThan(BALANCE);
}

/** What friction or a stop has to push a tapered strip with along itself at every nail, N. */
function endwisePushes({ exact }: Part['edges'][number]['runs'][number], { thickness, width }: typeof SIZED) {
  const spans = exact.filter((piece): piece is TaperedSegment => piece.type === 'tapered');
  const stiffness = stripStiffness(bendingModulus(inMm.species), width, thickness);
  const perPush = stiffness / spans[0]!.thickness[0] ** 3;
  return pinPushes(spans).map(({ angle, endwise }) => scale(direction(angle), endwise * perPush));
}

describe('adviseStrips', () => {
  test('all runs share one thickness, the thinnest that any of them needs', () => {
    const steps = (rise: number) => `    - bow: [${rise === 60 ? 600 : 1200}, 0]\n      rise: ${rise}\n`;
    const both = partOf(
      `part: Brace\nunits: mm\nedges:\n  brace:\n    - from: [0, 0]\n${steps(60)}${steps(90)}`,
    );
    const alone = [60, 90].map((rise) => only(brace(`bow: [600, 0]\n      rise: ${rise}`), inMm).advice);
    const [gentle, sharp] = adviseStrips(both, inMm);
    expect(alone[1]!.thickness).toBeLessThan(alone[0]!.thickness);
    expect([gentle.advice.thickness, sharp!.advice.thickness]).toEqual([
      alone[1]!.thickness,
      alone[1]!.thickness,
    ]);
    expect(mostStrained([gentle, sharp!])).toBe(sharp);
  });

  test.each(SAMPLES)('the strip of %s is safe on every run, or the run names other materials', (name) => {
    const runs = adviseStrips(samplePart(name), inMm);
    expect(new Set(runs.map(({ advice }) => advice.thickness)).size).toBe(1);
    // The bracket is too tight for wood.
    for (const { advice } of runs) expect(advice.verdict === 'safe').toBe(advice.others === undefined);
  });

  test('a tapered strip starts as thick as the job planes it', () => {
    const planed = only(batten('through: [300, 40]\n      strip: {from: 2.3, to: 1.7}'), inMm);
    expect(planed.advice.thickness).toBe(2.3);
  });

  test('a thickness asked for is taken, safe or not', () => {
    const runs = adviseStrips(samplePart('garden-arch-rail.yaml'), { ...inMm, thickness: 40 });
    expect(runs.map(({ advice }) => advice.thickness)).toEqual([40, 40]);
    expect(runs.map(({ advice }) => advice.verdict)).not.toContain('safe');
  });

  test('a run has its edge and its kind, and nails only where it is a batten', () => {
    const part = partOf(`part: Brace
units: mm
edges:
  brace:
    - from: [0, 0]
    - line: [100, 0]
    - batten: [500, 0]
      through: [[220, 30], [380, 30]]
    - arc: [800, 0]
      rise: 20
    - bow: [1100, 0]
      rise: 20
    - ellipse: [1400, 0]
      rise: 60
    - spline: [1700, 0]
      through: [1550, 20]
`);
    const runs = adviseStrips(part, inMm);
    expect(runs.map(({ curve, advice }) => [curve.kind, advice.nails.length])).toEqual([
      ['batten', 4],
      ['arc', 0],
      ['bow', 0],
      ['ellipse', 0],
      ['spline', 0],
    ]);
    for (const { edge } of runs) expect(edge).toBe('brace');
    // An arc of 300 mm chord and 20 mm rise: 300²/(8·20) + 20/2 = 572.5 mm; half an ellipse is
    // sharpest at its ends, where its radius is rise²/(chord/2) = 60²/150 = 24 mm.
    expect(runs[1]!.advice.worst.radius).toBeCloseTo(572.5, 6);
    expect(runs[3]!.advice.worst.radius).toBeCloseTo(24, 3);
  });

  test.each([
    ['a line', brace('line: [600, 20]')],
    ['a batten whose nails lie on its chord', batten('through: [[200, 0], [350, 0]]')],
  ])('there is no strip for %s', (_, part) => {
    expect(() => adviseStrips(part, inMm)).toThrow(expect.objectContaining({ code: 'strip.straight' }));
  });
});

test('a shallow strip of white oak is pushed as a beam with a center load', () => {
  // P = 48·E·I·y/L³ (AISC Manual, Table 3-23); white oak 1.78·10⁶ psi = 12 300 MPa (Wood Handbook,
  // FPL-GTR-282, Table 5-3b), and 10 % more rid of shear deflection (its footnote); I = 25·6³/12 = 450 mm⁴:
  // 48 · 13 530 · 450 · 5 / 1000³ = 1.46124 N. At y/L = 0.005 the beam is within 1e-3 of the strip.
  const run = only(batten('through: [500, 5]', '[1000, 0]'), { ...inMm, thickness: 6, width: 25 });
  const [start, nail, end] = run.advice.nails;
  expect(Math.abs(nail!.force / 1.46124 - 1)).toBeLessThan(1e-3);
  expect([start!.force / nail!.force, end!.force / nail!.force].map((share) => share.toFixed(3))).toEqual([
    '0.500',
    '0.500',
  ]);
  expect([start, nail, end].map((each) => each!.side)).toEqual(['left', 'right', 'left']);
  // Curvature 12y/L² under the load, strain 6/2 times that.
  expect(Math.abs(run.advice.strain / (3 * 12 * 5e-6) - 1)).toBeLessThan(1e-3);
});

describe('the nails of an even strip', () => {
  test.each([
    'through: [300, 60]',
    'through: [150, 60]',
    'apex: [330, -60]',
    'through: [[100, 22], [220, 37], [330, 40], [460, 29]]',
    'through: [[150, 40], [300, -10], [450, 40]]',
  ])('nails of a strip free at both ends are in balance: %s', (rest) => {
    const run = only(batten(rest));
    expectAtRest(run, pushes(run));
  });

  test('property: any nails of an even strip are in balance', () => {
    const offsets = fc.array(fc.double({ min: -40, max: 40, noNaN: true }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(offsets, (ys) => {
        fc.pre(ys.some((y) => Math.abs(y) > 1));
        const nails = ys.map((y, i) => `[${((i + 1) * 600) / (ys.length + 1)}, ${y.toFixed(3)}]`);
        const run = only(batten(`through: [${nails.join(', ')}]`));
        expectAtRest(run, pushes(run));
      }),
      { numRuns: 40 },
    );
  });

  test('a held end has a clamp and no nail', () => {
    const run = only(batten('through: [300, 60]\n      ends: [held, free]'));
    expect(run.advice.nails.map(({ side, centers }) => [side, centers.length])).toEqual([
      ['both', 0],
      ['right', 1],
      ['left', 1],
    ]);
  });
});

describe('the clamp of a held end', () => {
  const HELD = [
    ['through: [300, 3]', 'held'],
    ['through: [200, 40]', 'held'],
    ['through: [450, 40]', '[held, free]'],
    ['through: [150, 60]', '[free, held]'],
    ['through: [[150, 30], [300, -10], [450, 30]]', 'held'],
  ] as const;

  test.each(HELD)('bears what the nails leave over, %s, ends %s', (rest, ends) => {
    const { advice, curve } = only(batten(`${rest}\n      ends: ${ends}`));
    const [first, last] = [advice.nails[0]!, advice.nails.at(-1)!];
    for (const { at, clamp } of [first, last]) {
      if (!clamp) continue;
      const away = Math.sign(at.x - 300);
      expect(clamp.to.x).toBeCloseTo(at.x + away * advice.overhang, 9);
      expect(clamp.to.y).toBeCloseTo(0, 9);
      expect(clamp.length).toBe(advice.overhang);
      // EIκ, the curvature by a difference quotient of the angle.
      const piece = at.x < 300 ? curve.exact[0]! : curve.exact.at(-1)!;
      const [u, v] = at.x < 300 ? [0, 1e-6] : [1, 1 - 1e-6];
      const [a, b] = [paramCurve(piece)(u), paramCurve(piece)(v)];
      const bend = Math.abs(b.angle - a.angle) / Math.hypot(b.x - a.x, b.y - a.y);
      const stiffness = (1.1 * findSpecies('white oak').moe * advice.width * advice.thickness ** 3) / 12;
      expect(clamp.moment / (stiffness * bend)).toBeCloseTo(1, 3);
    }
    expect([first.clamp !== undefined, last.clamp !== undefined]).toEqual([
      ends !== '[free, held]',
      ends !== '[held, free]',
    ]);
  });

  test('of a shallow strip held at both ends bears PL/8', () => {
    // A beam held at both ends under a load in its middle: the moment at each end is PL/8 (beam tables).
    const { nails } = only(batten('through: [300, 3]\n      ends: held')).advice;
    expect(nails[0]!.clamp!.moment / ((nails[1]!.force * 600) / 8)).toBeCloseTo(1, 3);
  });
});

describe('the nails of a tapered strip', () => {
  const TAPERED = [
    ['through: [300, 60]', '{from: 6, to: 3}'],
    ['through: [200, 50]', '{from: 2, to: 5}'],
    ['apex: [330, -60]', '{from: 5, to: 4}'],
  ] as const;

  test.each(TAPERED)(
    'nails of a tapered strip with friction or a stop are in balance: %s, strip %s',
    (rest, strip) => {
      const part = batten(`${rest}\n      strip: ${strip}`);
      const run = only(part);
      const endwise = endwisePushes(part.edges[0]!.runs[0]!, SIZED);
      expectAtRest(
        run,
        pushes(run).map((push, i) => add(push, endwise[i]!)),
      );
    },
  );

  test.each(TAPERED)('nails alone let a tapered strip creep thick end first: %s, strip %s', (rest, strip) => {
    const part = batten(`${rest}\n      strip: ${strip}`);
    const forces = pushes(only(part));
    const [from, to] = strip.match(/\d/g)!.map(Number) as [number, number];
    // What is left over pushes the strip towards its thick end, a few hundredths of the nail's push.
    const left = total(forces).x * Math.sign(to - from);
    expect(left / greatest(forces)).toBeGreaterThan(0.01);
    // The nail itself needs no friction: the strip is free to slide over it.
    const [start, nail, end] = endwisePushes(part.edges[0]!.runs[0]!, SIZED).map(({ x, y }) =>
      Math.hypot(x, y),
    );
    expect(nail! / Math.min(start!, end!)).toBeLessThan(BALANCE);
  });

  test('a taper of equal ends presses and strains as an even strip', () => {
    const even = only(batten('through: [220, 60]'));
    const alike = only(batten('through: [220, 60]\n      strip: {from: 5, to: 5}'));
    expect(alike.advice.tapered).toBe(false);
    expect(Math.abs(alike.advice.strain / even.advice.strain - 1)).toBeLessThan(1e-6);
    expect(Math.abs(alike.advice.maxThickness / even.advice.maxThickness - 1)).toBeLessThan(1e-6);
    even.advice.nails.forEach(({ force, side, centers }, i) => {
      const nail = alike.advice.nails[i]!;
      expect(Math.abs(nail.force / force - 1)).toBeLessThan(1e-6);
      expect(nail.side).toBe(side);
      expect(nail.centers[0]!.x).toBeCloseTo(centers[0]!.x, 6);
      expect(nail.centers[0]!.y).toBeCloseTo(centers[0]!.y, 6);
    });
  });

  test('a tapered strip reversed has the same nails and strain', () => {
    // 6 mm thick at the start and 3 mm at the end, or the mirror image of it.
    const [one, other] = [
      only(batten('through: [200, 50]\n      strip: {from: 6, to: 3}'), { ...SIZED, thickness: 6 }),
      only(batten('through: [400, 50]\n      strip: {from: 3, to: 6}'), { ...SIZED, thickness: 3 }),
    ].map(({ advice }) => advice);
    expect(one!.tapered && other!.tapered).toBe(true);
    expect(Math.abs(one!.strain / other!.strain - 1)).toBeLessThan(1e-6);
    expect(one!.worst.at.x).toBeCloseTo(600 - other!.worst.at.x, 6);
    const mirrored = other!.nails.toReversed();
    one!.nails.forEach(({ force }, i) => {
      expect(Math.abs(force / mirrored[i]!.force - 1)).toBeLessThan(1e-6);
    });
  });
});
