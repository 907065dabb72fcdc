import { describe, expect, test } from 'vitest';
import { makeCurve } from '../../../src/curves/curve.ts';
import {
  elasticaS,
  elasticaX,
  elasticaY,
  QUARTER_S,
  QUARTER_Y,
} from '../../../src/curves/elastica/rectangular-elastica.ts';
import { strip } from '../../../src/curves/elastica/solve-strip.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { elasticaStates } from '../../../src/curves/geometry/pieces/elastica-series.ts';
import type { ElasticaSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { apexOf, figuresOf } from '../../../src/curves/measurements.ts';
import { rootsOn } from '../../../src/curves/numeric/roots-and-minima.ts';
import { FREE, PROMISE, strips } from '../batten-cases.ts';

const worst = (ours: readonly number[], theirs: readonly number[]): number => {
  expect(ours).toHaveLength(theirs.length);
  return Math.max(...ours.map((value, i) => Math.abs(value - theirs[i]!)));
};

/** Steeper than this (radians) a station fixes no offset to speak of: dy = tan θ · dx. */
const STEEP = 1.2;

/** The offset at a station, where the strip passes it once and not too steeply. */
function offsetAt(spans: readonly ElasticaSegment[], station: number): number | undefined {
  const places = spans.flatMap((span) => {
    const at = paramCurve(span);
    return rootsOn((u) => at(u).x - station, 64).map(at);
  });
  const gentle = places.every(
    ({ angle, y }) => Math.abs(angle) < STEEP && Math.abs(y - places[0]!.y) < PROMISE,
  );
  return gentle ? places[0]?.y : undefined;
}

/* The cases were computed to 34 digits from elliptic integrals, apart from this code; see the file's own note. */
describe.each(strips)('strip $id', ({ pins, ends, outputs }) => {
  const { spans, pins: forces } = strip(pins, ends);
  const chord = distance(pins[0]!, pins.at(-1)!);
  const last = elasticaStates(spans.at(-1)!)(spans.at(-1)!.length);

  test('has the reference angles and curvatures at its pins', () => {
    const angles = [...spans.map(({ angle }) => angle), last.angle];
    const curvatures = [...spans.map(({ curvature }) => curvature * chord), last.curvature * chord];
    expect(worst(angles, outputs.theta_at_pins)).toBeLessThan(PROMISE);
    expect(
      worst(
        curvatures,
        outputs.kappa_at_pins.map((k) => k * chord),
      ),
    ).toBeLessThan(PROMISE);
  });

  test('has the reference lengths, and every span ends at its pin', () => {
    const lengths = spans.map(({ length }) => length / chord);
    expect(
      worst(
        lengths,
        outputs.L_spans.map((length) => length / chord),
      ),
    ).toBeLessThan(PROMISE);
    const ends = spans.map((span) => elasticaStates(span)(span.length));
    ends.forEach((end, i) => {
      expect(distance(end, pins[i + 1]!)).toBeLessThan(PROMISE * chord);
    });
  });

  test('passes the reference offsets', () => {
    let compared = 0;
    outputs.station_x.forEach((station, i) => {
      const offset = offsetAt(spans, station);
      if (offset === undefined) return;
      expect(Math.abs(offset - outputs.offsets_y[i]!)).toBeLessThan(PROMISE * chord);
      compared++;
    });
    expect(compared).toBeGreaterThanOrEqual(3);
  });

  test('has the reference apex and inflections', () => {
    const apex = apexOf(spans, pins[0]!, pins.at(-1)!)!.at;
    expect(distance(apex, outputs.apex as Point)).toBeLessThan(PROMISE * chord);
    const run = makeCurve({ kind: 'batten', from: pins[0]!, to: pins.at(-1)!, pins, exact: spans });
    const { inflections } = figuresOf(run);
    const known = outputs.inflections as Point[];
    expect(inflections).toHaveLength(known.length);
    inflections.forEach((place, i) => {
      expect(distance(place, known[i]!)).toBeLessThan(PROMISE * chord);
    });
  });

  test('presses on its pins with the reference forces', () => {
    const ours = forces.map(({ reaction }) => reaction * chord ** 2);
    expect(
      worst(
        ours,
        outputs.pin_reaction_normal_over_EI.map((r) => r * chord ** 2),
      ),
    ).toBeLessThan(PROMISE);
  });
});

test('a strip between two free pins is straight', () => {
  const { spans, pins } = strip(
    [
      { x: 0, y: 0 },
      { x: 300, y: 400 },
    ],
    FREE,
  );
  expect(spans).toEqual([
    {
      type: 'elastica',
      from: { x: 0, y: 0 },
      angle: Math.atan2(4, 3),
      curvature: 0,
      curvatureRate: 0,
      length: 500,
    },
  ]);
  expect(pins.map(({ reaction, side }) => [reaction, side])).toEqual([
    [0, undefined],
    [0, undefined],
  ]);
});

test('a strip with its two ends held up evenly is the crest of one lobe', () => {
  // From the lobe's own integrals: crest at a quarter turn, the ends where it has turned π/2 − 1.2 from its foot.
  const [from, to] = [
    { x: 0, y: 0 },
    { x: 1000, y: 0 },
  ];
  const { spans } = strip([from, to], { start: { held: 1.2 }, end: { held: -1.2 } });
  const foot = Math.PI / 2 - 1.2;
  const along = QUARTER_Y - elasticaY(foot);
  expect(spans[0]!.length / 1000).toBeCloseTo((QUARTER_S - elasticaS(foot)) / along, 12);
  const rise = (elasticaX(Math.PI / 2) - elasticaX(foot)) / (2 * along);
  expect(apexOf(spans, from, to)!.rise / 1000).toBeCloseTo(rise, 12);
});

test('a strip close to snapping over is refused', () => {
  const ends = { start: { held: Math.PI / 2 }, end: { held: -Math.PI / 2 } };
  const [from, to] = [
    { x: 0, y: 0 },
    { x: 1000, y: 0 },
  ];
  expect(() => strip([from, to], ends)).toThrow(/too steep.* 99% of these angles/);
});

describe('shallow strips are beams (AISC Steel Construction Manual, Table 3-23)', () => {
  // l = 1000, load at a from the left, b from the right; EI = 1. So shallow that h²/l² is below the tolerance.
  const [l, h, NEAR] = [1000, 0.05, 1e-6];
  const across = (a: number, start: 'free' | { held: number }, end: 'free' | { held: number }) =>
    strip(
      [
        { x: 0, y: 0 },
        { x: a, y: h },
        { x: l, y: 0 },
      ],
      { start, end },
    );
  const close = (ours: number, theirs: number): void => {
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(NEAR);
  };

  test.each([700, 550])('case 8, simple beam with a load at any point: %i of 1000', (a) => {
    const b = l - a;
    const load = (3 * l * h) / (a * a * b * b);
    const { spans, pins } = across(a, 'free', 'free');
    close(pins[1]!.reaction, load);
    close(pins[0]!.reaction, (-load * b) / l);
    close(spans[1]!.curvature, (-load * a * b) / l);
    const { at, rise } = apexOf(spans, spans[0]!.from, { x: l, y: 0 })!;
    close(at.x, Math.sqrt((a * (a + 2 * b)) / 3));
    close(rise, (load * a * b * (a + 2 * b) * Math.sqrt(3 * a * (a + 2 * b))) / (27 * l));
  });

  test.each([700, 550])('case 17, beam fixed at both ends: load at %i of 1000', (a) => {
    const b = l - a;
    const load = (3 * l ** 3 * h) / (a * b) ** 3;
    const { spans, pins } = across(a, { held: 0 }, { held: 0 });
    close(pins[1]!.reaction, load);
    close(pins[0]!.reaction, (-load * b * b * (3 * a + b)) / l ** 3);
    close(spans[0]!.curvature, (load * a * b * b) / l ** 2);
    close(spans[1]!.curvature, (-2 * load * a * a * b * b) / l ** 3);
    const { at, rise } = apexOf(spans, spans[0]!.from, { x: l, y: 0 })!;
    close(at.x, (2 * a * l) / (3 * a + b));
    close(rise, (2 * load * a ** 3 * b ** 2) / (3 * (3 * a + b) ** 2));
  });

  test.each([300, 500, 800])(
    'case 14, beam fixed at its right end, supported at the left: load at %i of 1000',
    (a) => {
      const b = l - a;
      const load = (12 * l ** 3 * h) / (a * a * b ** 3 * (3 * l + a));
      const { spans, pins } = across(a, 'free', { held: 0 });
      close(pins[1]!.reaction, load);
      close(pins[0]!.reaction, (-load * b * b * (a + 2 * l)) / (2 * l ** 3));
      close(pins[2]!.reaction, (-load * a * (3 * l * l - a * a)) / (2 * l ** 3));
      close(elasticaStates(spans[1]!)(spans[1]!.length).curvature, (load * a * b * (a + l)) / (2 * l * l));
    },
  );
});
