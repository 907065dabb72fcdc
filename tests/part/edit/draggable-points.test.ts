import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Curve } from '../../../src/curves/curve.ts';
import type { Point } from '../../../src/curves/geometry/point.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { editJob } from '../../../src/job/edit/edit-job.ts';
import { type Grip, gripsOf } from '../../../src/part/edit/draggable-points.ts';
import { gripMoved, gripNudged } from '../../../src/part/edit/snap-to-rule.ts';
import type { Part } from '../../../src/part/part.ts';
import { faultsOf, partOf, SAMPLES, sampleText } from '../jobs.ts';

const INCH = 25.4;

const job = (steps: string): string => `part: P\nunits: in\nedges:\n  top:\n    - from: [0, 0]\n${steps}`;
const ARC = job('    - arc: [20, 0]\n      rise: 2\n    - line: [30, 0]\n');

function taken(text: string, key: string): { part: Part; grip: Grip } {
  const part = partOf(text);
  const grip = gripsOf(part).find((each) => each.key === key);
  if (!grip) throw new Error(`no grip ${key}`);
  return { part, grip };
}

/** The text after a grip is let go at a place, given in inches. */
function moved(text: string, key: string, [x, y]: readonly [number, number]): string {
  const { part, grip } = taken(text, key);
  return editJob(text, gripMoved(grip, { x: x * INCH, y: y * INCH }, part));
}

const near = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

describe('draggablePoints', () => {
  test('the leg: both ends of both edges, and its nail', () => {
    const grips = gripsOf(partOf(sampleText('hall-bench-leg.yaml')));
    expect(grips.map(({ edge, what }) => `${edge} ${what}`)).toEqual([
      'front end',
      'front end',
      'back end',
      'back nail',
      'back end',
    ]);
  });

  test('an arc by its apex, a join where it meets the next step', () => {
    expect(gripsOf(partOf(ARC)).map(({ what, key }) => [what, key])).toEqual([
      ['end', 'edges.top[0].from'],
      ['apex', 'edges.top[1].rise'],
      ['join', 'edges.top[1].arc'],
      ['end', 'edges.top[2].line'],
    ]);
  });

  test.each(SAMPLES)(
    '%s: every grip lies where the job puts it, and moving it nowhere changes nothing',
    (name) => {
      const part = partOf(sampleText(name));
      for (const grip of gripsOf(part)) expect(gripMoved(grip, grip.at, part)).toEqual([]);
    },
  );
});

describe('a grip that is moved', () => {
  test('puts the nail on the nearest graduation', () => {
    const text = sampleText('hall-bench-leg.yaml');
    expect(moved(text, 'edges.back[1].through[0]', [13.01, 3.49])).toContain('through: [13, 3 1/2]');
  });

  test('takes the other edge’s square end along', () => {
    const { edges } = partOf(moved(sampleText('hall-bench-leg.yaml'), 'edges.back[1].batten', [35, 2]));
    expect(edges.map(({ runs }) => runs.at(-1)!.to.x)).toEqual([35 * INCH, 35 * INCH]);
  });

  test('gives an arc the rise at the pointer, above its chord or below', () => {
    expect(moved(ARC, 'edges.top[1].rise', [3, 2.5])).toContain('rise: 2 1/2');
    expect(moved(ARC, 'edges.top[1].rise', [3, -1])).toContain('rise: -1');
  });

  test('never leaves an arc without any rise', () => {
    expect(moved(ARC, 'edges.top[1].rise', [10, 0])).toContain('rise: 1/32');
  });

  test('gives an arc by radius the radius through the pointer', () => {
    const text = ARC.replace('rise: 2', 'radius: 26');
    // 10² / (2·1) + 1/2 = 50.5: half the chord and the rise, by the intersecting chords.
    const edited = moved(text, 'edges.top[1].radius', [10, 1]);
    expect(edited).toContain('radius: 50 1/2');
    expect(figuresOf(partOf(edited).edges[0]!.runs[0]!).apex?.rise).toBeCloseTo(INCH, 6);
  });

  test('by one graduation when nudged', () => {
    const text = sampleText('hall-bench-leg.yaml');
    const { part, grip } = taken(text, 'edges.back[1].through[0]');
    expect(gripNudged(grip, 1, -1, part)).toEqual([
      { key: 'edges.back[1].through[0][0]', typed: '12 1/32' },
      { key: 'edges.back[1].through[0][1]', typed: '3 7/32' },
    ]);
  });

  test('property: a dragged point is within half a graduation of the pointer', () => {
    const text = sampleText('garden-arch-rail.yaml');
    const { part, grip } = taken(text, 'edges.upper[1].apex');
    const off = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(off, off, (x, y) => {
        const to = { x: grip.at.x + x, y: grip.at.y + y };
        const after = taken(editJob(text, gripMoved(grip, to, part)), grip.key).grip;
        expect(near(after.at, to)).toBeLessThanOrEqual(Math.SQRT1_2 + 1e-9);
      }),
      { numRuns: 20 },
    );
  });
});

describe('a shoulder in the hand', () => {
  const QUIRK = job('    - line: [8, 3]\n    - line: [8, 2]\n    - line: [20, 1 1/2]\n');
  const [LEFT, RIGHT] = ['edges.top[1].line', 'edges.top[2].line'];

  test.each([LEFT, RIGHT])('is moved along as a whole by either corner, and stays square: %s', (key) => {
    const to = key === LEFT ? ([9.5, 3] as const) : ([9.5, 2] as const);
    const after = moved(QUIRK, key, to);
    expect(after).toBe(QUIRK.replace('[8, 3]', '[9 1/2, 3]').replace('[8, 2]', '[9 1/2, 2]'));
    const [, { from, to: end }] = partOf(after).edges[0]!.runs as [Curve, Curve];
    expect(end.x).toBe(from.x);
  });

  test('is made higher or lower by the one corner, the other stays', () => {
    expect(moved(QUIRK, RIGHT, [8, 1.5])).toBe(QUIRK.replace('[8, 2]', '[8, 1 1/2]'));
    expect(moved(QUIRK, LEFT, [8, 3.25])).toBe(QUIRK.replace('[8, 3]', '[8, 3 1/4]'));
  });

  test('moves by arrow keys as by the pointer', () => {
    const { part, grip } = taken(QUIRK, LEFT);
    expect(gripNudged(grip, 1, 0, part)).toEqual([
      { key: `${LEFT}[0]`, typed: '8 1/32' },
      { key: `${RIGHT}[0]`, typed: '8 1/32' },
    ]);
  });

  test.each([
    ['past what comes after it', [21, 3], 'job.backwards'],
    ['on to what comes after it', [20, 3], 'job.shoulder'],
    ['until nothing of it is left', [8, 2], 'job.same-point'],
  ] as const)('%s is refused with its reason', (_, to, code) => {
    expect(faultsOf(moved(QUIRK, LEFT, to)).map((fault) => fault.code)).toContain(code);
  });
});
