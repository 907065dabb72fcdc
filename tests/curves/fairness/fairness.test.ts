import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Curve } from '../../../src/curves/curve.ts';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { bow } from '../../../src/curves/elastica/bow.ts';
import { fairnessOf } from '../../../src/curves/fairness/fairness.ts';
import { pieceLength } from '../../../src/curves/geometry/evaluate.ts';
import { type Point, point } from '../../../src/curves/geometry/point.ts';
import { arc } from '../../../src/curves/simple/arc.ts';
import { ellipse } from '../../../src/curves/simple/ellipse.ts';
import { line } from '../../../src/curves/simple/line.ts';
import { spline } from '../../../src/curves/simple/spline.ts';
import { taperedBatten } from '../../../src/curves/tapered/tapered-batten.ts';

const [A, B] = [point(0, 0), point(1000, 0)];
const codes = (...runs: Curve[]): string[] => fairnessOf(runs).remarks.map(({ code }) => code);
const words = (...runs: Curve[]): string =>
  fairnessOf(runs)
    .remarks.map(({ message }) => message((mm) => `${Number(mm.toFixed(1))}`))
    .join('; ');
const through = (...points: readonly (readonly [number, number])[]): Curve =>
  spline(
    points.map(([x, y]) => point(x, y)),
    'natural',
    'natural',
  );

describe('fair lines', () => {
  test.each<[string, Curve]>([
    ['an arc', arc(A, B, { rise: 120 })],
    ['a half circle', ellipse(A, B, 500)],
    ['half an ellipse', ellipse(A, B, 250)],
    ['a bow', bow(A, B, 200)],
    ['a bow past the half circle', bow(A, B, 1200)],
    ['a batten over a nail in the middle', batten(A, B, { nail: point(500, 100) })],
    ['a batten over a nail aside', batten(A, B, { nail: point(250, 100) })],
    ['a tapered strip', taperedBatten(A, B, { nail: point(500, 100) }, { from: 6, to: 3 })],
    ['a spline through three points', through([0, 0], [500, 90], [1000, 0])],
    ['a spiral whose curvature grows evenly', clothoid()],
  ])('%s is fair', (_, curve) => {
    expect(codes(curve)).toEqual(['fairness.fair']);
    expect(words(curve)).toBe('fair: one smooth curve, no flat spot');
  });

  test('a line is straight, and so are two in line', () => {
    expect(words(line(A, B))).toBe('straight');
    expect(words(line(A, B), line(B, point(1500, 0)))).toBe('straight');
  });

  test('one reversal that the points require is fair', () => {
    const run = through([0, 0], [300, 100], [700, -100], [1000, 0]);
    expect(words(run)).toBe('fair: a smooth curve that reverses once, as its points require');
    expect(fairnessOf([run]).inflections).toEqual([{ x: expect.closeTo(500, 6), y: expect.closeTo(0, 6) }]);
  });

  test('two reversals are never fair, even if the points require them', () => {
    const held = spline([A, point(500, 100), B], { held: 0 }, { held: 0 });
    expect(codes(held)).toEqual(['fairness.reverse']);
    expect(words(held)).toMatch(/^the curve reverses at 250, 750, as its points require/);
  });

  test('a nail of a strip kinks the curvature and does not break it', () => {
    const { joins, extremes } = fairnessOf([batten(A, B, { nail: point(400, 120) })]);
    expect(joins).toHaveLength(1);
    expect(Math.abs(joins[0]!.jump)).toBeLessThan(1e-12);
    expect(Math.abs(joins[0]!.turn)).toBeLessThan(1e-12);
    expect(extremes.map(({ x }) => x)).toEqual([expect.closeTo(400, 6)]);
  });
});

describe('unfair lines', () => {
  test('two lines at an angle make a corner', () => {
    const run = [line(A, B), line(B, point(2000, 1000 * Math.tan((3.2 * Math.PI) / 180)))];
    expect(words(...run)).toBe('corner of 3.2° at 1000');
  });

  test('a line runs into an arc with a hard spot, however smooth the tangent', () => {
    const quarter = arc(B, point(1300, 300), { rise: -300 * (1 - Math.SQRT1_2) });
    expect(words(line(A, B), quarter)).toBe(
      'hard spot at 1000: the curve changes suddenly from straight to a radius of 300',
    );
  });

  test('two arcs of an ogee meet with a hard spot where they turn over', () => {
    const run = [arc(A, B, { rise: 80 }), arc(B, point(2000, 0), { rise: -80 })];
    expect(codes(...run)).toEqual(['fairness.hard-spot']);
    expect(words(...run)).toContain('bending the other way');
    expect(fairnessOf(run).inflections).toEqual([{ x: expect.closeTo(1000, 6), y: expect.closeTo(0, 6) }]);
  });

  test('arcs of nearly one radius pass, of two to one do not', () => {
    // Two arcs tangent at the top of a half circle of 500.
    const left = arc(point(0, 0), point(500, 500), { rise: 500 * (1 - Math.SQRT1_2) });
    const right = (radius: number): Curve =>
      arc(point(500, 500), point(500 + radius, 500 - radius), { rise: radius * (1 - Math.SQRT1_2) });
    expect(codes(left, right(500))).toEqual(['fairness.fair']);
    expect(codes(left, right(520))).toEqual(['fairness.fair']);
    expect(codes(left, right(1000))).toEqual(['fairness.hard-spot']);
  });

  test('a nail close to one end makes a hard spot', () => {
    expect(codes(batten(A, B, { nail: point(40, 50) }))).toEqual(['fairness.hard-spot']);
  });

  test('points unevenly set out that overshot in a charting library are not fair', () => {
    // Reported by users of d3-shape (ISC licence) as a natural spline that overshoots.
    const run = through([0, 224], [100, 200], [107, 180], [502, 300], [580, 120], [607, 148], [900, 400]);
    expect(codes(run)).toContain('fairness.hard-spot');
    expect(words(run)).toContain('hard spot at 589');
  });

  test('a low ellipse has hard shoulders and a flat crown', () => {
    expect(codes(ellipse(A, B, 100))).toEqual(['fairness.hard-spot', 'fairness.flat-spot']);
  });

  test('points that press the middle of a curve straight make a flat spot', () => {
    const flat = circlePoints([0, 0, 0, -10, 0, 0, 0]);
    expect(codes(through(...flat))).toContain('fairness.flat-spot');
  });

  test('points on a circle do not, though a free strip slackens beside its ends', () => {
    expect(codes(through(...circlePoints([0, 0, 0, 0, 0, 0, 0])))).toEqual(['fairness.fair']);
  });

  test('points that waver about a circle make a lumpy line', () => {
    const lumpy = circlePoints([0, 1.5, -1.5, 1.5, -1.5, 1.5, -1.5, 1.5, 0]);
    expect(codes(through(...lumpy))).toContain('fairness.lumpy');
  });

  test('a curve that reverses more often than its points gets a remark with the places', () => {
    const run = through([0, 0], [250, 80], [500, 90], [750, 80], [1000, 0]);
    expect(codes(run)).toEqual(['fairness.reverse']);
    const [first, second] = fairnessOf([run]).inflections as [Point, Point];
    expect(first.x + second.x).toBeCloseTo(1000, 6);
    expect(words(run)).toBe(
      `the curve reverses at ${first.x.toFixed(1)}, ${second.x.toFixed(1)}, more often than its points require`,
    );
  });
});

describe('a nail off the line of the others', () => {
  const IN = 25.4;
  /** Eight nails along an arch of 34 in; the fifth is this many 64ths of an inch too high. */
  const arch = (parts: number): Curve => {
    const heights = [0, 23, 38, 45, 46 + parts, 37, 22, 0];
    const nails = heights.map((y, i) => point((34 * IN * i) / 7, (y * IN) / 64));
    return batten(nails[0]!, nails.at(-1)!, { through: nails.slice(1, -1) });
  };

  test('is named however far it is off, and more reverses make the line no fairer', () => {
    expect(codes(arch(0))).toEqual(['fairness.fair']);
    for (const parts of [3, 4, 8, 12]) expect(codes(arch(parts))).toContain('fairness.odd-point');
    for (const parts of [1, 2]) expect(codes(arch(parts))).not.toContain('fairness.fair');
    expect(words(arch(8))).toContain('the nail at 493.5 is 3.');
  });

  test('does not show where few nails lie on a deep wave: the words say how far off it could be', () => {
    const wave = (count: number, bump = 0): Curve =>
      through(
        ...Array.from({ length: count + 2 }, (_, i): [number, number] => {
          const u = i / (count + 1);
          return [762 * u, 100 * Math.sin(2 * Math.PI * u) + (i === 2 ? bump : 0)];
        }),
      );
    expect(codes(wave(4))).toEqual(['fairness.fair-so-far']);
    expect(words(wave(4))).toMatch(
      /^fair as far as 4 points show: a point [\d.]+ off at [\d.]+ would not be seen$/,
    );
    const few = fairnessOf([wave(4)]).leastBump!;
    const many = fairnessOf([wave(14)]).leastBump!;
    expect(few.size).toBeGreaterThan(IN / 32);
    expect(many.size).toBeLessThan(IN / 32);
    expect(codes(wave(14))).toEqual(['fairness.fair']);
    expect(codes(wave(14, 2 * many.size))).toContain('fairness.odd-point');
  });

  test('is judged alike in a long line, a few dozen points at a time', () => {
    const long = (bump: number): Curve =>
      through(
        ...Array.from({ length: 61 }, (_, i): [number, number] => [
          50 * i,
          200 * Math.sin((Math.PI * i) / 60) + (i === 24 ? bump : 0),
        ]),
      );
    expect(codes(long(0))).toEqual(['fairness.fair']);
    expect(words(long(1))).toContain('the point at 1200 is 1 off the curve of the others');
  });

  test('counts from four nails between the ends on, as fewer make any line they like', () => {
    expect(
      fairnessOf([through([0, 0], [200, 50], [400, 90], [600, 40], [800, 0])]).leastBump,
    ).toBeUndefined();
  });
});

describe('the comb', () => {
  test('runs along the whole edge and carries the curvature of the arc', () => {
    const runs = [line(A, B), arc(B, point(1600, 0), { rise: 100 })];
    const { comb } = fairnessOf(runs);
    const length = runs.reduce((sum, run) => sum + pieceLength(run.exact[0]!), 0);
    expect(comb[0]!.along).toBe(0);
    expect(comb.at(-1)!.along).toBeCloseTo(length, 9);
    // radius = 600²/800 + 50 = 500
    for (const tooth of comb) expect(tooth.curvature).toBeCloseTo(tooth.run === 0 ? 0 : -1 / 500, 12);
  });

  test('an edge is judged the same mirrored and from either end', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -60, max: 60, noNaN: true }), { minLength: 3, maxLength: 6 }),
        (offsets) => {
          const points = offsets.map((y, i) => point(200 * i, y));
          const mirrored = points.map(({ x, y }) => point(x, -y));
          const draw = (all: readonly Point[]): Curve => spline(all, 'natural', 'natural');
          const plain = codes(draw(points));
          expect(codes(draw(mirrored))).toEqual(plain);
          expect(codes(draw([...points].reverse())).sort()).toEqual([...plain].sort());
        },
      ),
    );
  });
});

/** Points on a half circle of 500 mm radius, each moved outwards by a few mm. */
function circlePoints(outwards: readonly number[]): [number, number][] {
  const last = outwards.length - 1;
  return outwards.map((out, i) => {
    const angle = Math.PI * (0.8 - (0.6 * i) / last);
    return [(500 + out) * Math.cos(angle), (500 + out) * Math.sin(angle)];
  });
}

/** A strip that is straight at its start and turns ever more evenly: the start of a flat elastica. */
function clothoid(): Curve {
  const exact = [
    { type: 'elastica', from: A, angle: 0, curvature: 0, curvatureRate: 5e-7, length: 1000 },
  ] as const;
  return { kind: 'spline', from: A, to: point(990, 80), pins: [], exact, path: [] };
}
