import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paramCurve, piecesLength } from '../../../src/curves/geometry/evaluate.ts';
import type { Segment } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { halfOf } from '../../../src/part/derived/half-pattern.ts';
import type { Part } from '../../../src/part/part.ts';
import { finishedLine } from '../../../src/part/part-lines.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { Fault } from '../../../src/units/fault.ts';
import { showLength } from '../../../src/units/rule.ts';
import { partOf, samplePart } from '../jobs.ts';

const ARCH = `part: Arch
units: mm
edges:
  lower:
    - from: [0, 0]
    - arc: [1200, 0]
      rise: 200
  upper:
    - from: [0, 90]
    - arc: [1200, 90]
      rise: 220
`;

function half(part: Part) {
  const halved = halfOf(part);
  if (halved.shape.type !== 'half') throw new Error('no half');
  return { halved, shape: halved.shape };
}

function faultOf(part: Part): Fault {
  try {
    halfOf(part);
  } catch (fault) {
    if (fault instanceof Fault) return fault;
  }
  throw new Error('it was halved');
}

const ends = (path: readonly Segment[]) => [paramCurve(path[0]!)(0), paramCurve(path.at(-1)!)(1)] as const;

describe('half of a symmetric arch', () => {
  const whole = partOf(ARCH);
  const { shape } = half(whole);

  test('is exactly half of its line, and ends on the centre line at both edges', () => {
    expect(piecesLength(shape.line)).toBeCloseTo(piecesLength(finishedLine(whole.shape)) / 2, 2);
    for (const { x } of ends(shape.line)) expect(x).toBeCloseTo(600, 6);
    expect(shape.centre.map(({ x, y }) => [x, y])).toEqual([
      [600, expect.closeTo(200, 2)],
      [600, expect.closeTo(310, 2)],
    ]);
    expect(shape.middles.map(({ y }) => y)).toEqual([expect.closeTo(200, 9), expect.closeTo(310, 9)]);
  });

  test('is contiguous and left of the center line', () => {
    shape.line.slice(1).forEach((segment, i) => {
      expect(distance(paramCurve(segment)(0), paramCurve(shape.line[i]!)(1))).toBeLessThan(1e-6);
    });
    for (const segment of shape.line)
      for (let i = 0; i <= 20; i++) expect(paramCurve(segment)(i / 20).x).toBeLessThanOrEqual(600 + 1e-6);
  });

  test('and its mirror image cover the whole: no place of the arch is left out', () => {
    const places = shape.line.flatMap((segment) =>
      Array.from({ length: 401 }, (_, i) => paramCurve(segment)(i / 400)),
    );
    const both = [...places, ...places.map(({ x, y }) => ({ x: 1200 - x, y }))];
    for (const segment of finishedLine(whole.shape))
      for (let i = 0; i <= 40; i++) {
        const at = paramCurve(segment)(i / 40);
        // Places 620/400 mm apart: none on the line is farther from one than half of that.
        expect(Math.min(...both.map((place) => distance(place, at)))).toBeLessThan(0.9);
      }
  });

  test('takes fewer sheets, and is measured to the center line', () => {
    const options = { paper: parsePaper('a4'), margin: 12.7, overlap: 15, turn: 0 } as const;
    const { halved } = half(whole);
    const layout = layOut(halved, options);
    expect(layout.sheets.length).toBeLessThan(layOut(whole, options).sheets.length);
    expect(layout.checks[0]!.label).toMatch(/lower, end to center line/);
    expect(layout.checks[0]!.length).toBeCloseTo(Math.hypot(600, 200), 6);
  });
});

describe('half of other parts', () => {
  test('the half of the garden arch rail has its saw line up to the center line', () => {
    const whole = samplePart('garden-arch-rail.yaml');
    const { halved, shape } = half(whole);
    expect(piecesLength(halved.saw)).toBeCloseTo(piecesLength(whole.saw) / 2, 1);
    for (const { x } of ends(halved.saw)) expect(x).toBeCloseTo(930, 6);
    expect(shape.chord).toBeUndefined();
  });

  test('a line pattern keeps half its chord', () => {
    const { shape } = half(samplePart('hall-bench-stretcher.yaml'));
    expect(shape.chord!.map(({ x }) => x / 25.4)).toEqual([0, expect.closeTo(23, 9)]);
    expect(ends(shape.line)[1].x / 25.4).toBeCloseTo(23, 9);
  });

  test('property: any symmetric rail has a half of half its length', () => {
    const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        size(200, 2000),
        size(0.02, 0.3),
        fc.constantFrom('arc', 'batten', 'spline'),
        (span, share, kind) => {
          const rise = span * share;
          const by = kind === 'arc' ? `rise: ${rise}` : `through: [${span / 2}, ${rise}]`;
          const through = kind === 'spline' ? `through: [[${span / 2}, ${rise}]]` : by;
          const whole = partOf(
            `part: Rail\nunits: mm\nedges:\n  a:\n    - from: [0, 0]\n    - ${kind}: [${span}, 0]\n      ${through}\n`,
          );
          const { shape } = half(whole);
          expect(
            Math.abs(2 * piecesLength(shape.line) - piecesLength(finishedLine(whole.shape))),
          ).toBeLessThan(4 * FIT_MM);
        },
      ),
      { numRuns: 25 },
    );
  });
});

describe('a part without two mirrored halves is refused', () => {
  const lopsided = (off: number) => `part: Rail
units: in
edges:
  top:
    - from: [0, 0]
    - line: [12, 0]
    - line: [24, ${off}]
`;

  test('with the largest difference and its place, in the job’s unit', () => {
    // The middle stands at 0, the ends at 0 and 1/16: 1/16 in off, but for the slope (cos 0.3°).
    const part = partOf(lopsided(1 / 16));
    const fault = faultOf(part);
    expect(fault.code).toBe('half.not-symmetric');
    expect(fault.messageIn((mm) => showLength(mm, part.rule))).toMatch(
      / 1\/16"(?: scant)? .* (?:0|24)".*"top".* 12"/,
    );
  });

  test('a difference of 0.1 mm is accepted, 0.2 mm is refused', () => {
    expect(() => halfOf(partOf(lopsided(0.05 / 25.4)))).not.toThrow();
    expect(faultOf(partOf(lopsided(0.2 / 25.4))).code).toBe('half.not-symmetric');
  });

  test('a leg', () => {
    expect(faultOf(samplePart('hall-bench-leg.yaml')).code).toBe('half.not-symmetric');
  });
});
