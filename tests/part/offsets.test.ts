import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { landmarks } from '../../src/part/landmarks.ts';
import { chordLine, offsetAt, offsetsAt, stationSpacing, stationsEvery } from '../../src/part/offsets.ts';
import { partOf, samplePart } from './jobs.ts';

const edgeOf = (steps: string) =>
  partOf(`
part: Garden arch brace
units: mm
edges:
  brace:
${steps}
`).edges[0]!;

describe('offsets at stations', () => {
  test('of an arc are those of its circle', () => {
    // Chord 600, rise 75: radius 637.5 (Euclid III.35), so y = √(637.5² − (x − 300)²) − 562.5.
    const edge = edgeOf('    - from: [0, 0]\n    - arc: [600, 0]\n      rise: 75');
    for (const x of [0, 60, 150, 300, 599])
      expect(offsetAt(edge, x)).toBeCloseTo(Math.sqrt(637.5 ** 2 - (x - 300) ** 2) - 562.5, 8);
  });

  test('offsets at the ends are the ends, and past them there are none', () => {
    const edge = edgeOf('    - from: [0, 12]\n    - batten: [600, 20]\n      through: [200, 60]');
    expect(offsetAt(edge, 0)).toBeCloseTo(12, 9);
    expect(offsetAt(edge, 600)).toBeCloseTo(20, 9);
    expect(offsetAt(edge, 200)).toBeCloseTo(60, 6);
    expect(offsetAt(edge, -1)).toBeUndefined();
    expect(offsetAt(edge, 601)).toBeUndefined();
  });

  test('a line that doubles back has several offsets', () => {
    const edge = edgeOf('    - from: [0, 0]\n    - arc: [100, 0]\n      rise: 80');
    expect(offsetsAt(edge, -5)).toHaveLength(2); // more than a half circle overhangs its ends
    expect(offsetsAt(edge, 50)).toHaveLength(1);
  });

  test('from the chord are square off it', () => {
    const edge = edgeOf('    - from: [0, 10]\n    - line: [300, 410]');
    expect(offsetAt(edge, 250, chordLine(edge))).toBeCloseTo(0, 9);
    expect(offsetAt(edge, 500, chordLine(edge))).toBeCloseTo(0, 9); // 3-4-5: 500 long
  });
});

describe('stations', () => {
  test('are the ends and the whole multiples between, each once', () => {
    expect(stationsEvery(0, 100, 25)).toEqual([0, 25, 50, 75, 100]);
    expect(stationsEvery(10, 95, 25)).toEqual([10, 25, 50, 75, 95]);
  });

  test('property: rise strictly, and lie no farther apart than asked', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        fc.double({ min: 1, max: 3000, noNaN: true }),
        fc.double({ min: 1, max: 400, noNaN: true }),
        (from, length, every) => {
          const stations = stationsEvery(from, from + length, every);
          stations.slice(1).forEach((station, i) => {
            expect(station).toBeGreaterThan(stations[i]!);
            expect(station - stations[i]!).toBeLessThan(every + 1e-5);
          });
          expect(stations[0]).toBe(from);
          expect(stations.at(-1)).toBe(from + length);
        },
      ),
    );
  });

  test('are spaced as a rule is ticked', () => {
    expect(stationSpacing(34 * 25.4, 'in', 18)).toBe(2 * 25.4);
    expect(stationSpacing(1860, 'mm', 16)).toBe(200);
  });
});

describe('landmarks', () => {
  test('landmarks of the bench leg have the apex and the nail', () => {
    const found = landmarks(samplePart('hall-bench-leg.yaml')).filter(({ edge }) => edge === 'back');
    const where = (what: string): number => found.find((mark) => mark.what === what)!.at.x / 25.4;
    expect(where('nail')).toBeCloseTo(12, 9);
    expect(where('apex')).toBeGreaterThan(15);
    expect(found.filter(({ what }) => what === 'end')).toHaveLength(2);
  });

  test('have no apex that the rule does not show', () => {
    const flat =
      'part: Rail\nunits: mm\nedges:\n  a:\n    - from: [0, 0]\n    - arc: [600, 0]\n      rise: 0.2\n';
    expect(landmarks(partOf(flat)).map(({ what }) => what)).toEqual(['end', 'end']);
  });

  test('name a nail that stands in the apex once, as the apex', () => {
    const found = landmarks(samplePart('garden-arch-rail.yaml')).filter(({ edge }) => edge === 'lower');
    expect(found.map(({ what }) => what)).toEqual(['end', 'end', 'apex']);
  });
});
