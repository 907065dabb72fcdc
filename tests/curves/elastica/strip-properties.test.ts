import fc from 'fast-check';
import { expect, test } from 'vitest';
import { followContinuation, solveEquilibrium } from '../../../src/curves/elastica/continuation.ts';
import { spanOffset } from '../../../src/curves/elastica/newton-many-pins.ts';
import {
  type Strip,
  type StripEnd,
  type StripEnds,
  strip,
} from '../../../src/curves/elastica/solve-strip.ts';
import {
  chordGeometry,
  flatProblem,
  type StripProblem,
  straightState,
} from '../../../src/curves/elastica/strip-problem.ts';
import { type ElasticaState, elasticaStates } from '../../../src/curves/geometry/pieces/elastica-series.ts';
import type { ElasticaSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import {
  add,
  direction,
  distance,
  leftNormal,
  type Point,
  scale,
} from '../../../src/curves/geometry/point.ts';
import { integrate } from '../../../src/curves/numeric/gauss-legendre.ts';
import { PROMISE } from '../batten-cases.ts';
import { number, type PinSet, pinSets, stripOr } from '../strip-sets.ts';

/** Places along the whole strip at equal shares of every span. */
const places = ({ spans }: Strip): ElasticaState[] =>
  spans.flatMap((span) => {
    const at = elasticaStates(span);
    return [0, 0.2, 0.4, 0.6, 0.8, 1].map((u) => at(u * span.length));
  });

/** Two strips at the same places, to the promise for chords of `chord`; curvatures times the chord as well. */
function agree(
  ours: Strip,
  theirs: readonly { x: number; y: number; curvature: number }[],
  chord = 1000,
): void {
  const found = places(ours);
  found.forEach((place, i) => {
    expect(distance(place, theirs[i]!)).toBeLessThan(PROMISE * chord);
    expect(Math.abs(place.curvature - theirs[i]!.curvature) * chord).toBeLessThan(STEADY * PROMISE * chord);
  });
}
/** Near its limit a strip moves this much more than its pins do. */
const STEADY = 10;

const turnEnd = (end: StripEnd, f: (angle: number) => number): StripEnd =>
  end === 'free' ? 'free' : { held: f(end.held) };

const moved = ({ pins, ends }: PinSet, place: (p: Point) => Point, angle: (a: number) => number): PinSet => ({
  pins: pins.map(place),
  ends: { start: turnEnd(ends.start, angle), end: turnEnd(ends.end, angle) },
});

/* Offsets to 0.25: strips well below their limit, so that only the property itself is tried. */
const set = pinSets(0.25);
const standing = (f: (set: PinSet, strip: Strip) => void) =>
  fc.property(set, (s) => {
    const found = stripOr(s);
    if (found) f(s, found);
  });

test('property: every span passes its two pins, and angle and curvature carry over', () => {
  fc.assert(
    standing(({ pins, ends }, { spans }) => {
      const last = spans.map((span) => elasticaStates(span)(span.length));
      spans.forEach((span, i) => {
        expect(distance(last[i]!, pins[i + 1]!)).toBeLessThan(PROMISE * 1000);
        const next = spans[i + 1];
        if (!next) return;
        expect(Math.abs(last[i]!.angle - next.angle)).toBeLessThan(PROMISE);
        expect(Math.abs(last[i]!.curvature - next.curvature) * 1000).toBeLessThan(PROMISE * STEADY);
        expect(Math.abs(next.angle - span.angle)).toBeLessThanOrEqual(Math.PI);
      });
      const [first, final] = [spans[0]!, last.at(-1)!];
      const off = (end: StripEnd, { angle, curvature }: { angle: number; curvature: number }): number =>
        end === 'free' ? curvature * 1000 : angle - end.held;
      expect(Math.abs(off(ends.start, first))).toBeLessThan(PROMISE * STEADY);
      expect(Math.abs(off(ends.end, final))).toBeLessThan(PROMISE * STEADY);
    }),
  );
});

test('property: a strip of any size has the same shape', () => {
  fc.assert(
    fc.property(set, number(-3, 3), (s, power) => {
      const [found, k] = [stripOr(s), 10 ** power];
      if (!found) return;
      const other = strip(
        moved(
          s,
          (p) => scale(p, k),
          (a) => a,
        ).pins,
        s.ends,
      );
      const expected = places(found).map(({ x, y, curvature }) => ({
        x: x * k,
        y: y * k,
        curvature: curvature / k,
      }));
      agree(other, expected, 1000 * k);
    }),
  );
});

test('property: turned and shifted pins give the same strip, turned and shifted', () => {
  fc.assert(
    fc.property(set, number(-3, 3), number(-500, 500), (s, turn, shift) => {
      const found = stripOr(s);
      if (!found) return;
      const place = ({ x, y }: Point): Point =>
        add({ x: shift, y: -shift }, add(scale(direction(turn), x), scale(leftNormal(direction(turn)), y)));
      const other = moved(s, place, (a) => a + turn);
      agree(
        strip(other.pins, other.ends),
        places(found).map((p) => ({ ...place(p), curvature: p.curvature })),
      );
    }),
  );
});

test('property: mirrored pins give the mirrored strip', () => {
  fc.assert(
    standing((s, found) => {
      const other = moved(
        s,
        ({ x, y }) => ({ x, y: -y }),
        (a) => -a,
      );
      agree(
        strip(other.pins, other.ends),
        places(found).map(({ x, y, curvature }) => ({ x, y: -y, curvature: -curvature })),
      );
    }),
  );
});

test('property: pins given from the other end give the same strip, run backwards', () => {
  fc.assert(
    standing(({ pins, ends }, found) => {
      const back = (end: StripEnd): StripEnd => turnEnd(end, (a) => a + Math.PI);
      const turned: StripEnds = { start: back(ends.end), end: back(ends.start) };
      const expected = places(found).map(({ x, y, curvature }) => ({ x, y, curvature: -curvature }));
      agree(strip([...pins].reverse(), turned), expected.reverse());
    }),
  );
});

test('property: a pin on the line of the strip changes nothing and has no force', () => {
  fc.assert(
    fc.property(set, number(0.1, 0.9), fc.nat(), (s, u, which) => {
      const found = stripOr(s);
      if (!found) return;
      const i = which % found.spans.length;
      const span = found.spans[i]!;
      const { x, y } = elasticaStates(span)(u * span.length);
      // A strip that hangs back over its own pins has places that no pin in order can mark.
      if (!(x > s.pins[i]!.x + 1 && x < s.pins[i + 1]!.x - 1)) return;
      const more = stripOr({ ...s, pins: s.pins.toSpliced(i + 1, 0, { x, y }) });
      if (!more) return;
      expect(more.spans[i]!.length + more.spans[i + 1]!.length).toBeCloseTo(span.length, 6);
      const largest = Math.max(...more.pins.map(({ reaction }) => Math.abs(reaction)));
      expect(Math.abs(more.pins[i + 1]!.reaction)).toBeLessThanOrEqual(Math.max(1e-7 * largest, 1e-20));
      const rest = found.spans.filter((_, j) => j !== i);
      const kept = more.spans.filter((_, j) => j !== i && j !== i + 1);
      kept.forEach((other, j) => {
        expect(Math.abs(other.angle - rest[j]!.angle)).toBeLessThan(PROMISE * STEADY);
      });
    }),
  );
});

/**
 * Bending energy ½∫κ² of a span pushed sideways by w(s): p = r + w·n, so that p′ = (1 − wκ)·t + w′·n.
 */
function pushedEnergy(
  span: ElasticaSegment,
  push: (u: number) => [w: number, slope: number, bend: number],
): number {
  const at = elasticaStates(span);
  const density = (u: number): number => {
    const { curvature: k, rate } = at(u * span.length);
    const [w, w1, w2] = push(u);
    const [a, b] = [1 - w * k, w1];
    const [a1, b1] = [-w1 * k - w * rate - k * b, w2 + k * a];
    return (a * b1 - b * a1) ** 2 / Math.hypot(a, b) ** 5 / 2;
  };
  return [0, 1, 2, 3].reduce((sum, i) => sum + integrate(density, i / 4, (i + 1) / 4), 0) * span.length;
}

test('property: pushed sideways between its pins, turned at them, or both, the strip has more energy', () => {
  const pushes = fc.record({
    slopes: fc.array(number(-1, 1), { minLength: 7, maxLength: 7 }),
    bumps: fc.array(number(-1, 1), { minLength: 6, maxLength: 6 }),
    size: number(0.001, 0.03),
  });
  fc.assert(
    fc.property(set, pushes, (s, { slopes, bumps, size }) => {
      const found = stripOr(s);
      if (!found) return;
      const energy = (share: number): number =>
        found.spans.reduce((sum, span, i) => {
          const l = span.length;
          const fixed = (end: StripEnd, slope: number): number => (end === 'free' ? slope : 0);
          const m0 = share * (i === 0 ? fixed(s.ends.start, slopes[0]!) : slopes[i]!);
          const m1 =
            share * (i === found.spans.length - 1 ? fixed(s.ends.end, slopes[i + 1]!) : slopes[i + 1]!);
          const c = share * bumps[i]! * l;
          // u(1−u)²·m0 − u²(1−u)·m1 + u²(1−u)²·c: no push at the pins, the same slope on both sides of each.
          const push = (u: number): [number, number, number] => {
            const v = 1 - u;
            return [
              l * (u * v * v * m0 - u * u * v * m1) + 4 * u * u * v * v * c,
              (v * v - 2 * u * v) * m0 - (2 * u * v - u * u) * m1 + (8 * u * v * (v - u) * c) / l,
              ((6 * u - 4) * m0 - (2 - 6 * u) * m1) / l + (8 * (1 - 6 * u + 6 * u * u) * c) / l ** 2,
            ];
          };
          return sum + pushedEnergy(span, push);
        }, 0);
      const rest = energy(0);
      expect(energy(size)).toBeGreaterThanOrEqual(rest * (1 - 1e-10));
      expect(energy(-size)).toBeGreaterThanOrEqual(rest * (1 - 1e-10));
    }),
  );
});

test('property: strips over 3 to 7 pins, offsets to half the chord, are those that sixty even steps lead to', () => {
  fc.assert(
    fc.property(pinSets(0.5), ({ pins, ends }) => {
      const angle = (end: StripEnd): number | undefined => (end === 'free' ? undefined : end.held);
      const over: StripProblem = {
        stations: pins.map(({ x }) => x / 1000),
        heights: pins.map(({ y }) => y / 1000),
        start: angle(ends.start),
        end: angle(ends.end),
      };
      const ours = solveEquilibrium(over);
      const straight = { pins: flatProblem(over), state: straightState(pins.length) };
      const walked = followContinuation(straight, over, 60);
      expect(ours.share).toBeCloseTo(walked.share, 6);
      if (ours.share < 1) return;
      expect(chordGeometry(over).chords).toHaveLength(pins.length - 1);
      expect(ours.state).toHaveLength(spanOffset(pins.length, pins.length - 1));
      ours.state.forEach((value, i) => {
        expect(Math.abs(value - walked.state[i]!)).toBeLessThan(PROMISE * STEADY);
      });
    }),
    { numRuns: 200 },
  );
});
