import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { Segment } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { type Cutter, templateOf } from '../../../src/part/derived/router-template.ts';
import { offsetAt } from '../../../src/part/offsets.ts';
import { parallelLine } from '../../../src/part/outline/saw-line.ts';
import type { Part } from '../../../src/part/part.ts';
import { finishedLine } from '../../../src/part/part-lines.ts';
import { partOf, SAMPLES, samplePart } from '../jobs.ts';

const IN = 25.4;
const bush = (guideDiameter: number, bitDiameter: number, opening = false): Cutter => ({
  guide: 'bush',
  guideDiameter,
  bitDiameter,
  opening,
});

const PLACES = 400;
const placesOn = (path: readonly Segment[]): Point[] =>
  path.flatMap((segment) => Array.from({ length: PLACES + 1 }, (_, i) => paramCurve(segment)(i / PLACES)));

/** The least distance from a point to a path, by brute force over short chords. */
function distanceTo(places: readonly Point[], { x, y }: Point): number {
  return places.slice(1).reduce((least, b, i) => {
    const a = places[i]!;
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const t = Math.min(1, Math.max(0, ((x - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy || 1)));
    return Math.min(least, Math.hypot(a.x + t * dx - x, a.y + t * dy - y));
  }, Number.POSITIVE_INFINITY);
}

const square = partOf(`
part: Wall shelf side
units: mm
edges:
  under:
    - from: [0, 0]
    - line: [300, 0]
  over:
    - from: [0, 100]
    - line: [300, 100]
`);

const cornersOf = ({ shape }: Part): string[] =>
  finishedLine(shape).map((segment) => {
    const { x, y } = paramCurve(segment)(0);
    return `${x.toFixed(6)} ${y.toFixed(6)}`;
  });

describe('a router’s template', () => {
  test('for a 3/4 in guide and a 1/2 in bit is smaller all round by 1/8 in', () => {
    // Offset = (guide − bit) / 2: a magazine's worked figure, by way of a woodworking question-and-answer page.
    const { inside, part } = templateOf(square, bush(0.75 * IN, 0.5 * IN));
    expect(inside).toBeCloseTo(IN / 8, 12);
    const [low, high, left, right] = [IN / 8, 100 - IN / 8, IN / 8, 300 - IN / 8].map((at) => at.toFixed(6));
    expect(cornersOf(part)).toEqual([
      `${left} ${low}`,
      `${right} ${low}`,
      `${right} ${high}`,
      `${left} ${high}`,
    ]);
  });

  test('as an opening is larger all round by the same', () => {
    const { inside, part } = templateOf(square, bush(0.75 * IN, 0.5 * IN, true));
    expect(inside).toBeCloseTo(-IN / 8, 12);
    expect(part.bounds.left).toBeCloseTo(-IN / 8, 9);
    expect(part.bounds.top).toBeCloseTo(100 + IN / 8, 9);
  });

  test('for a bearing as large as its bit is the part itself', () => {
    const leg = samplePart('hall-bench-leg.yaml');
    const { part, inside } = templateOf(leg, { ...bush(12, 12), guide: 'bearing' });
    expect(inside).toBe(0);
    expect(part.shape).toEqual(leg.shape);
  });

  test.each(SAMPLES)('of %s lies at that distance from the part everywhere, by brute force', (name) => {
    const whole = samplePart(name);
    const line = placesOn(finishedLine(whole.shape));
    for (const opening of [false, true]) {
      const { part } = templateOf(whole, bush(16, 12, opening));
      for (const edge of part.edges)
        for (const run of edge.runs)
          for (const at of [0.1, 0.5, 0.9].map((u) =>
            paramCurve(run.path[Math.floor(run.path.length / 2)]!)(u),
          ))
            expect(Math.abs(distanceTo(line, at) - 2)).toBeLessThan(2 * FIT_MM);
    }
  });

  test('of a single edge lies on the wood’s side of it: towards the reference line', () => {
    const arch = (rise: number): Part =>
      partOf(
        `part: Rail\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - arc: [600, 0]\n      rise: ${rise}\n`,
      );
    for (const rise of [75, -75]) {
      const { part } = templateOf(arch(rise), bush(16, 12));
      // Chord 600, rise 75: radius 637.5 (Euclid III.35); the parallel's apex is 2 lower.
      expect(offsetAt(part.edges[0]!, 300)).toBeCloseTo(Math.sign(rise) * 73, 9);
    }
  });

  test('has edges that are its outline, end to end', () => {
    for (const opening of [false, true]) {
      const { part } = templateOf(samplePart('garden-arch-rail.yaml'), bush(30, 12, opening));
      const outline = placesOn(finishedLine(part.shape));
      for (const { runs } of part.edges)
        for (const end of [runs[0]!.from, runs.at(-1)!.to])
          expect(outline.some((at) => distance(at, end) < 1e-6)).toBe(true);
      const [a, b] = part.edges;
      // An opening's corner sharper than a right angle is cut off, so its two edges end apart.
      if (!opening) expect(a!.runs[0]!.from.x).toBeCloseTo(b!.runs[0]!.from.x, 6);
    }
  });

  test('property: template and back again is the part', () => {
    const rail = samplePart('garden-arch-rail.yaml');
    fc.assert(
      fc.property(fc.double({ min: 1, max: 20, noNaN: true }), (more) => {
        const { part } = templateOf(rail, bush(10 + more, 10));
        const { part: back } = templateOf(part, bush(10 + more, 10, true));
        for (const station of [100, 930, 1500])
          for (const e of [0, 1])
            expect(
              Math.abs(offsetAt(back.edges[e]!, station)! - offsetAt(rail.edges[e]!, station)!),
            ).toBeLessThan(4 * FIT_MM);
      }),
      { numRuns: 10 },
    );
  });
});

describe('where the router cannot follow', () => {
  const hollow = (radius: number): Part =>
    partOf(
      `part: Rail\nunits: mm\nedges:\n  top:\n    - from: [0, 60]\n    - line: [100, 60]\n    - arc: [110, 60]\n      radius: ${-radius}\n    - line: [200, 60]\n`,
    );

  test('a hollow tighter than the bit is named with its station and radius', () => {
    const { warnings } = templateOf(hollow(6), bush(16, 13));
    const tight = warnings.find(({ code }) => code === 'template.tight')!;
    expect(tight.message).toMatch(/ 6.5 mm.* 6 mm.* 8 mm.* 7.5 mm/);
    expect(templateOf(hollow(6), bush(16, 11)).warnings.map(({ code }) => code)).not.toContain(
      'template.tight',
    );
  });

  test('an inside corner is named, an outside corner is not', () => {
    const bent = (y: number): Part =>
      partOf(
        `part: Rail\nunits: mm\nedges:\n  top:\n    - from: [0, 60]\n    - line: [100, ${y}]\n    - line: [200, 60]\n`,
      );
    expect(templateOf(bent(50), bush(16, 12)).warnings.map(({ code }) => code)).toEqual([
      'template.inner-corner',
    ]);
    expect(templateOf(bent(70), bush(16, 12)).warnings).toEqual([]);
    expect(templateOf(bent(70), bush(16, 12, true)).warnings.map(({ code }) => code)).toEqual([
      'template.inner-corner',
    ]);
  });

  test('corners of both edges at one station give two warnings', () => {
    const shouldered = partOf(`
part: Rail
units: mm
edges:
  under: [from: [0, 20], {line: [30, 20]}, {line: [30, 0]}, {line: [200, 0]}]
  over: [from: [0, 60], {line: [30, 60]}, {line: [30, 80]}, {line: [200, 80]}]
`);
    expect(templateOf(shouldered, bush(16, 12)).warnings).toMatchObject(
      ['under', 'over'].map((name) => ({
        code: 'template.inner-corner',
        message: expect.stringContaining(`30 mm (${name})`),
      })),
    );
  });

  test('a template that would fold back is refused with the station', () => {
    const round = partOf(
      'part: Rail\nunits: mm\nedges:\n  top:\n    - from: [0, 60]\n    - arc: [20, 60]\n      rise: 10\n',
    );
    expect(() => templateOf(round, bush(40, 12))).toThrow(
      expect.objectContaining({ code: 'parallel.folds' }),
    );
  });

  test('a template of a part too narrow for it would cross itself, and is refused with the station', () => {
    // The neck is 60 − 2·25 = 10 mm wide.
    const neck = partOf(`
part: Rail
units: mm
edges:
  under:
    - from: [0, 0]
    - arc: [600, 0]
      rise: 25
  over:
    - from: [0, 60]
    - arc: [600, 60]
      rise: -25
`);
    expect(templateOf(neck, bush(21.9, 12)).warnings).toEqual([]);
    expect(() => templateOf(neck, bush(22.1, 12))).toThrow(
      expect.objectContaining({ code: 'parallel.no-room' }),
    );
    expect(() => parallelLine(neck, -5.05)).toThrow(expect.objectContaining({ code: 'parallel.no-room' }));
    expect(parallelLine(neck, -4.95)).not.toHaveLength(0);
  });

  test('a bit that does not pass through its bush is refused', () => {
    expect(() => templateOf(square, bush(12, 12))).toThrow(
      expect.objectContaining({ code: 'template.bush' }),
    );
  });
});

test('a bit that is too large for a half ellipse gives a warning at both ends, with the radius there', () => {
  // Half axes 40 (along) and 20 (across): radius 20²/40 = 10 at either end of the long axis, 40²/20 = 80 at its apex.
  const bracket = partOf(
    'part: Wall shelf bracket\nunits: mm\nedges:\n  low: [{from: [0, 0]}, {line: [60, 0]}, {ellipse: [140, 0], rise: 20}, {line: [200, 0]}]\n  up: [{from: [0, 60]}, {line: [200, 60]}]\n',
  );
  const { warnings } = templateOf(bracket, {
    guide: 'bush',
    guideDiameter: 26,
    bitDiameter: 24,
    opening: false,
  });
  const tight = warnings.filter(({ code }) => code === 'template.tight').map(({ message }) => message);
  expect(tight).toHaveLength(2);
  expect(tight[0]).toMatch(/ 60 mm.* 10 mm/);
  expect(tight[1]).toMatch(/ 140 mm.* 10 mm/);
});
