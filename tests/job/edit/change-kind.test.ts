import { describe, expect, test } from 'vitest';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { changeKind, isHeldAt, setHeldEnds, splitLine } from '../../../src/job/edit/change-kind.ts';
import { STEP_NAMES } from '../../../src/job/steps/step-kinds.ts';
import { readPart } from '../../../src/part/read-part.ts';
import { itemAt } from '../../../src/units/checked.ts';
import { sampleText } from '../../part/jobs.ts';

const leg = sampleText('hall-bench-leg.yaml');
const BACK = 'edges.back[1]';

const runOf = (text: string, edge = 1) => itemAt(itemAt(readPart(text).part.edges, edge).runs, 0);
const { rule } = readPart(leg).part;

describe('changeKind', () => {
  test.each(STEP_NAMES)('of the batten to a %s keeps both ends, and the rise on the rule', (kind) => {
    const before = runOf(leg);
    const after = runOf(changeKind(leg, BACK, kind, before, rule));
    expect(after.kind).toBe(kind);
    expect([after.from, after.to]).toEqual([before.from, before.to]);
    if (kind === 'line') return;
    const [old, now] = [figuresOf(before).apex?.rise ?? 0, figuresOf(after).apex?.rise ?? 0];
    // The nail of a batten or spline is off its apex; its rise may differ by a little more than a mark.
    expect(Math.abs(now - old)).toBeLessThan(kind === 'batten' || kind === 'spline' ? 1.5 : 25.4 / 32);
  });

  test('of a hollow curve keeps it hollow', () => {
    const hollow = leg.replace('3 1/4]', '1 1/2]');
    const arc = runOf(changeKind(hollow, BACK, 'arc', runOf(hollow), rule));
    expect(arc.exact[0]).toMatchObject({
      type: 'arc',
      sweep: expect.toSatisfy((sweep: number) => sweep > 0),
    });
  });

  test('of a straight run gives a gentle curve over its middle', () => {
    const arc = runOf(changeKind(leg, 'edges.front[1]', 'arc', runOf(leg, 0), rule), 0);
    expect(figuresOf(arc).apex?.rise).toBeCloseTo((34 * 25.4) / 12, -1);
    const batten = runOf(changeKind(leg, 'edges.front[1]', 'batten', runOf(leg, 0), rule), 0);
    expect(batten.pins[1]?.x).toBeCloseTo(17 * 25.4, 6);
  });

  test('of a batten to a spline and back keeps the nails and the held ends', () => {
    const held = setHeldEnds(leg, BACK, [true, false]);
    expect(isHeldAt(held, BACK)).toEqual([true, false]);
    const spline = changeKind(held, BACK, 'spline', runOf(held), rule);
    expect(isHeldAt(spline, BACK)).toEqual([true, false]);
    expect(runOf(spline).pins).toEqual(runOf(leg).pins);
    expect(runOf(changeKind(spline, BACK, 'batten', runOf(spline), rule)).exact).toEqual(runOf(held).exact);
    expect(runOf(setHeldEnds(held, BACK, [false, false])).exact).toEqual(runOf(leg).exact);
  });
});

test('splitLine puts a point into the middle of a straight run', () => {
  const { part } = readPart(splitLine(leg, 'edges.front[1]', runOf(leg, 0), rule));
  expect(itemAt(part.edges, 0).runs.map(({ to }) => to.x / 25.4)).toEqual([17, 34]);
});
