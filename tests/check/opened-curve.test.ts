import { describe, expect, test } from 'vitest';
import { openedCurve } from '../../src/check/opened-curve.ts';
import { makeCurveFromPath } from '../../src/curves/curve.ts';
import { sharpen } from '../../src/curves/offset/overbend.ts';
import { makeEdge } from '../../src/part/edge.ts';
import { offsetAt, REFERENCE_LINE } from '../../src/part/offsets.ts';
import { partOf, samplePart } from '../part/jobs.ts';

const RISE = 150;
const CHORD = 1860;
const arch = partOf(
  `part: Arch\nunits: mm\ngraduation: 1\nedges:\n  top:\n    - from: [0, 0]\n    - arc: [${CHORD}, 0]\n      rise: ${RISE}\n`,
);
const edge = arch.edges[0];

/** An arc of the same length with so much of its bend, and its rise (Euclid III.35, and the half angle). */
function openedArc(bend: number) {
  const radius = CHORD ** 2 / (8 * RISE) + RISE / 2;
  const half = Math.asin(CHORD / 2 / radius) * bend;
  const [opened, chord] = [radius / bend, 2 * (radius / bend) * Math.sin(half)];
  const rise = opened * (1 - Math.cos(half));
  const offset = (x: number): number => rise - opened + Math.sqrt(opened ** 2 - (x - chord / 2) ** 2);
  return { rise, chord, offset };
}

/** As read to a millimeter, the left end or the middle where it should be. */
function readingsOf(bend: number, { middle = false, shift = 0, turn = 0 } = {}) {
  const { chord, offset } = openedArc(bend);
  const slip = middle ? (chord - CHORD) / 2 : 0;
  return [0.05, 0.15, 0.3, 0.4, 0.5, 0.6, 0.7, 0.85, 0.95].map((share, i) => {
    const station = Math.round(share * CHORD);
    const straight = offset(station + slip) + shift + turn * station;
    return { station, offset: Math.round(straight), line: i + 2 };
  });
}

describe('an opened arc', () => {
  test.each([1, 0.99, 0.96, 0.9, 0.8, 1.03])('with %f of its bend is read within the rule', (bend) => {
    for (const held of [{}, { middle: true }, { shift: 4 }, { turn: 0.003 }]) {
      const found = openedCurve(arch, edge, readingsOf(bend, held), REFERENCE_LINE);
      expect(found?.askedRise).toBeCloseTo(RISE, 6);
      // Half a millimeter of reading, over nine readings.
      expect(Math.abs((found?.rise ?? 0) - openedArc(bend).rise)).toBeLessThan(1);
      expect(found?.left.worst).toBeLessThan(1);
    }
  });

  test('is not found in three readings, nor in an edge that has a bump', () => {
    expect(openedCurve(arch, edge, readingsOf(0.96).slice(0, 3), REFERENCE_LINE)).toBeUndefined();
    const bumped = readingsOf(1).map((one, i) => (i === 4 ? { ...one, offset: one.offset + 8 } : one));
    expect(openedCurve(arch, edge, bumped, REFERENCE_LINE)).toBeUndefined();
  });
});

test('an opened leg, bent on one side of its middle only, is read as well', () => {
  const leg = samplePart('hall-bench-leg.yaml');
  const back = leg.edges[1];
  if (!back) throw new Error('the leg has two edges');
  const opened = makeEdge(back, [makeCurveFromPath('spline', sharpen(back.pieces, 0.93).flat())]);
  const readings = [2, 6, 10, 14, 18, 22, 26, 30].map((inches, i) => {
    const station = inches * 25.4;
    const mark = 25.4 / 32;
    return { station, offset: Math.round((offsetAt(opened, station) ?? 0) / mark) * mark, line: i + 2 };
  });
  const found = openedCurve(leg, back, readings, REFERENCE_LINE);
  expect(found?.bend).toBeCloseTo(0.93, 1.5);
});
