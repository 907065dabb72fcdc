import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { TaperedSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import {
  type PinPush,
  pinPushes,
  taperedStates,
} from '../../../src/curves/geometry/pieces/tapered-series.ts';
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
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { reversePiece } from '../../../src/curves/geometry/transform.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { integrate } from '../../../src/curves/numeric/gauss-legendre.ts';
import { taperedBatten } from '../../../src/curves/tapered/tapered-batten.ts';
import { solveNearbyTapered, solveTapered } from '../../../src/curves/tapered/tapered-equilibrium.ts';
import { Fault } from '../../../src/units/fault.ts';
import cases from '../../fixtures/batten-cases.json' with { type: 'json' };
import { type Draw, expectSameLineAnywhere, offsetAt, PROMISE, worstMiss } from '../shape-laws.ts';

const [A, B] = [point(0, 0), point(1000, 0)];
const THICK = 6;
const strip = (ratio: number) => ({ from: THICK, to: THICK * ratio });
const nailed = (x: number, y: number, ratio: number) =>
  taperedBatten(A, B, { nail: point(x, y) }, strip(ratio));
const spansOf = (x: number, y: number, ratio: number): TaperedSegment[] =>
  nailed(x, y, ratio).exact as TaperedSegment[];

describe('a tapered strip over three pins', () => {
  // Computed apart from this code, good to 1e-11 of the chord.
  const REFERENCE = 1e-8;
  test.each(cases.taper)('takes the reference shape: $id', ({ inputs, outputs }) => {
    const [, nail] = inputs.pins as [number[], number[], number[]];
    const ratio = inputs.taper_ratio_t1_over_t0;
    const curve = nailed(nail[0]! * 1000, nail[1]! * 1000, ratio);
    const figures = figuresOf(curve);
    const close = (ours: number, theirs: number): void =>
      expect(Math.abs(ours - theirs)).toBeLessThan(REFERENCE);
    outputs.station_x.forEach((x, i) => {
      close(offsetAt(curve, x * 1000) / 1000, outputs.offsets_y[i]!);
    });
    const spans = curve.exact as TaperedSegment[];
    spans.forEach(({ length, angle }, i) => {
      close(length / 1000, outputs.L_spans[i]!);
      close(angle, outputs.theta_at_pins[i]!);
    });
    close(figures.endAngles[1], outputs.theta_at_pins[2]!);
    close(paramCurve(spans[1]!)(0).curvature * 1000, outputs.kappa_at_pins[1]!);
    close(figures.apex!.at.x / 1000, outputs.apex.x);
    close(figures.apex!.at.y / 1000, outputs.apex.y);
    close(1000 / figures.tightest!.radius, outputs.max_abs_curvature);
  });

  test('without a taper is the uniform batten', () => {
    for (const [x, y] of [
      [500, 0.5],
      [300, 150],
      [620, 400],
    ] as const) {
      const [tapered, uniform] = [nailed(x, y, 1), batten(A, B, { nail: point(x, y) })];
      tapered.exact.forEach((piece, i) => {
        const [here, there] = [paramCurve(piece), paramCurve(uniform.exact[i]!)];
        for (const u of [0, 0.3, 0.8, 1]) expect(distance(here(u), there(u))).toBeLessThan(PROMISE * 1000);
      });
    }
  });

  test('shallow, bends at the nail as the tapered beam does', () => {
    // Unit-load integral of a simply supported beam, t = 1 − (1 − r)s: κ_N = −11.18922 h for r = 0.5
    // and −11.77497 h for r = 0.7, with nail and height in the middle, per chord.
    for (const [ratio, bend] of [
      [0.5, -11.18922],
      [0.7, -11.77497],
    ] as const) {
      const { curvature } = paramCurve(spansOf(500, 0.1, ratio)[1]!)(0);
      expect((curvature * 1000) / (0.1 / 1000)).toBeCloseTo(bend, 4);
    }
  });

  test('has less bending energy than the strips beside it', () => {
    // ½∫t³κ² of neighbours over the same pins, drawn by the same pieces with one pin a little aside:
    // moving the nail along the strip's own tangent at the nail costs nothing to first order.
    const energy = (nail: Point): number =>
      spansOf(nail.x, nail.y, 0.5).reduce((sum, span) => {
        const state = taperedStates(span);
        return sum + integrate((u) => (state(u).moment * state(u).curvature * span.length) / 2, 0, 1);
      }, 0);
    const nail = point(450, 120);
    const spans = spansOf(nail.x, nail.y, 0.5);
    const { angle } = paramCurve(spans[1]!)(0);
    const [tangent, normal] = [
      point(Math.cos(angle), Math.sin(angle)),
      point(-Math.sin(angle), Math.cos(angle)),
    ];
    const slope = (way: Point): number =>
      (energy(add(nail, scale(way, 0.05))) - energy(subtract(nail, scale(way, 0.05)))) / 0.1;
    const push = pinPushes(spans)[1]!;
    expect(Math.abs(push.endwise)).toBeLessThan(1e-9 * push.across);
    expect(Math.abs(slope(tangent))).toBeLessThan(1e-5 * slope(normal));
    // The work of lifting the nail is what the nail pushes (Castigliano).
    expect(slope(normal) / push.across).toBeCloseTo(1, 5);
  });

  test('is bent over its whole length by the pushes of its pins, which balance', () => {
    const spans = spansOf(400, 200, 0.5);
    const pushes = pinPushes(spans).map(({ at, angle, across, endwise }) => {
      const along = direction(angle);
      return { at, force: add(scale(along, endwise), scale(leftNormal(along), across)) };
    });
    const rest = pushes.reduce((sum, { force }) => add(sum, force), point(0, 0));
    expect(Math.hypot(rest.x, rest.y)).toBeLessThan(PROMISE * Math.abs(pushes[1]!.force.y));
    for (const u of [0.2, 0.7, 1]) {
      const here = taperedStates(spans[1]!)(u);
      const lever = pushes.slice(0, 2).map(({ at, force }) => cross(subtract(here, at), force));
      expect(here.moment).toBeCloseTo(lever[0]! + lever[1]!, 9);
    }
  });

  test('slides toward its thick end, unless it is held endwise', () => {
    const [start, nail, end] = pinPushes(spansOf(500, 200, 0.5)) as [PinPush, PinPush, PinPush];
    expect(start.moment).toBe(0);
    expect(Math.abs(end.moment)).toBeLessThan(1e-9 * Math.abs(nail.moment));
    expect(start.endwise + end.endwise).toBeGreaterThan(0.01 * nail.across);
    const [a, , b] = pinPushes(spansOf(500, 200, 1)) as [PinPush, PinPush, PinPush];
    expect(Math.abs(a.endwise) + Math.abs(b.endwise)).toBeLessThan(1e-9 * nail.across);
  });

  test('strains its outer fibre by half the thickness over the radius', () => {
    const [span] = spansOf(500, 100, 0.5) as [TaperedSegment];
    const { thickness, curvature, strain } = taperedStates(span)(0.5);
    expect(thickness).toBeCloseTo((span.thickness[0] + span.thickness[1]) / 2, 12);
    expect(strain).toBeCloseTo((thickness * Math.abs(curvature)) / 2, 15);
    expect(taperedStates(span)(0).strain).toBe(0);
  });

  test('without a rise is straight and keeps its thickness', () => {
    const curve = nailed(300, 0, 0.5);
    expect(figuresOf(curve).length).toBeCloseTo(1000, 9);
    expect((curve.exact[0] as TaperedSegment).thickness).toEqual([6, 5.1]);
  });
});

describe('the nail for an apex of a tapered strip', () => {
  test.each([
    [560, 100, 0.5],
    [600, 200, 0.5],
    [500, 200, 0.5],
    [530, 300, 0.7],
    [440, 150, 2],
    [660, 620, 0.5],
  ])('puts it at station %d, %d high, taper %f', (x, y, ratio) => {
    const curve = taperedBatten(A, B, { apex: point(x, y) }, strip(ratio));
    expect(distance(figuresOf(curve).apex!.at, point(x, y))).toBeLessThan(1e-6);
  });

  test('gives the possible range where there is no nail', () => {
    const asked = () => taperedBatten(A, B, { apex: point(400, 100) }, strip(0.5));
    expect(asked).toThrow(expect.objectContaining({ code: 'batten.no-such-apex' }));
    expect(asked).toThrow(/from station 491.* to 645/);
    const flat = () => taperedBatten(A, B, { apex: point(400, 0) }, strip(0.5));
    expect(flat).toThrow(expect.objectContaining({ code: 'batten.no-such-apex' }));
  });
});

describe('a tapered strip that cannot be', () => {
  const codeOf = (make: () => unknown): string => {
    try {
      make();
    } catch (error) {
      if (error instanceof Fault) return error.code;
    }
    return 'none';
  };

  test('slips off a nail that is too high, and the message gives the limit', () => {
    let told = '';
    try {
      nailed(300, 600, 0.5);
    } catch (error) {
      told = (error as Fault).messageIn((mm) => `<${mm.toFixed(1)}>`);
    }
    const limit = Number(/slips off above <([\d.]+)>/.exec(told)![1]);
    expect(limit).toBeGreaterThan(500);
    expect(codeOf(() => nailed(300, limit - 1, 0.5))).toBe('none');
    expect(codeOf(() => nailed(300, limit + 2, 0.5))).toBe('batten.too-high');
    expect(codeOf(() => nailed(500, 900, 0.5))).toBe('batten.too-high');
  });

  test('is refused with held ends, without thickness, as a feather edge, or out of order', () => {
    const by = { nail: point(500, 50) };
    expect(codeOf(() => taperedBatten(A, B, by, strip(0.5), { start: 'free', end: { held: 0 } }))).toBe(
      'batten.taper-held',
    );
    expect(codeOf(() => taperedBatten(A, B, by, { from: 0, to: 3 }))).toBe('batten.taper');
    expect(codeOf(() => taperedBatten(A, B, by, strip(0.1)))).toBe('batten.taper');
    expect(codeOf(() => nailed(1200, 50, 0.5))).toBe('batten.out-of-order');
    expect(codeOf(() => taperedBatten(A, A, by, strip(0.5)))).toBe('curve.same-point');
    expect(codeOf(() => nailed(Number.NaN, 50, 0.5))).toBe('curve.not-finite');
  });
});

describe('a tapered strip as drawn', () => {
  const setting = fc.record({
    from: fc.record({
      x: fc.double({ min: -2000, max: 2000, noNaN: true }),
      y: fc.double({ min: -500, max: 500, noNaN: true }),
    }),
    chord: fc.double({ min: 10, max: 5000, noNaN: true }),
    angle: fc.double({ min: -3, max: 3, noNaN: true }),
    share: fc.double({ min: 0.25, max: 0.75, noNaN: true }),
    rise: fc.double({ min: 1e-3, max: 0.35, noNaN: true }),
  });

  test('is the same line turned, scaled, mirrored and with the strip laid the other way round', () => {
    fc.assert(
      fc.property(setting, fc.double({ min: 0.3, max: 1, noNaN: true }), (s, ratio) => {
        const draw: Draw = (from, to, nail, backwards) => {
          const { from: thick, to: thin } = strip(ratio);
          return taperedBatten(
            from,
            to,
            { nail },
            backwards ? { from: thin, to: thick } : { from: thick, to: thin },
          );
        };
        expectSameLineAnywhere(draw, s);
      }),
      { numRuns: 25 },
    );
  });

  test('passes its nail, unbent at both ends', () => {
    fc.assert(
      fc.property(setting, fc.double({ min: 0.25, max: 3, noNaN: true }), ({ share, rise }, ratio) => {
        const nail = point(share * 1000, rise * 1000);
        const [first, second] = spansOf(nail.x, nail.y, ratio) as [TaperedSegment, TaperedSegment];
        const [one, two] = [paramCurve(first), paramCurve(second)];
        expect(distance(one(1), nail)).toBeLessThan(PROMISE * 1000);
        expect(distance(two(1), B)).toBeLessThan(PROMISE * 1000);
        expect(Math.abs(two(1).curvature)).toBeLessThan(1e-9 * Math.abs(two(0).curvature));
        expect(one(1).curvature / two(0).curvature).toBeCloseTo(1, 9);
      }),
      { numRuns: 30 },
    );
  });

  test('planed down on its nail it is the strip that is bent up after planing', () => {
    // Two ways to the same strip, so that neither has slipped to a looped one on the way.
    fc.assert(
      fc.property(setting, fc.double({ min: 0.25, max: 4, noNaN: true }), ({ share, rise }, ratio) => {
        const planed = solveTapered(point(share, rise), ratio);
        let bent = solveTapered(point(share, rise / 10), ratio);
        for (let i = 2; i <= 10; i++) bent &&= solveNearbyTapered(bent, point(share, (rise * i) / 10), ratio);
        expect(planed === undefined).toBe(bent === undefined);
        planed?.solution.forEach((value, i) => {
          expect(Math.abs(value - bent!.solution[i]!)).toBeLessThan(PROMISE * Math.max(1, Math.abs(value)));
        });
      }),
      { numRuns: 25 },
    );
  });

  test('keeps its path within the fit', () => {
    const { exact, path } = nailed(400, 250, 0.4);
    expect(worstMiss(exact, path)).toBeLessThanOrEqual(FIT_MM);
  });

  test('read backwards twice it is itself, and once the same line', () => {
    const [span] = spansOf(400, 250, 0.4) as [TaperedSegment];
    const [here, back] = [paramCurve(span), paramCurve(reversePiece(span))];
    const again = paramCurve(reversePiece(reversePiece(span)));
    for (const u of [0, 0.3, 1]) {
      expect(distance(back(1 - u), here(u))).toBeLessThan(PROMISE * 1000);
      expect(back(1 - u).curvature).toBeCloseTo(-here(u).curvature, 12);
      expect(distance(again(u), here(u))).toBeLessThan(PROMISE * 1000);
    }
  });
});
