import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fairnessOf } from '../../src/curves/fairness/fairness.ts';
import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../src/curves/geometry/pieces/piece.ts';
import { halfOf } from '../../src/part/derived/half-pattern.ts';
import { templateOf } from '../../src/part/derived/router-template.ts';
import { stickRow } from '../../src/part/derived/story-stick.ts';
import { endStrips } from '../../src/part/ends/fold-tabs.ts';
import { landmarks } from '../../src/part/landmarks.ts';
import {
  chordLine,
  offsetsAt,
  offsetsBeside,
  REFERENCE_LINE,
  shoulderCorners,
  stationsOf,
} from '../../src/part/offsets.ts';
import type { Part } from '../../src/part/part.ts';
import { finishedLine } from '../../src/part/part-lines.ts';
import { worstRunout } from '../../src/shop/wood/grain-runout.ts';
import { faultsOf, partOf, samplePart } from './jobs.ts';

const IN = 25.4;

/** A part on a straight edge, its other edge as given, mm. */
const onStraight = (steps: string, more = '', thickness = 20): string =>
  `part: P\nunits: mm\nstock: {thickness: ${thickness}}\nedges:\n  low:\n    - from: [0, 0]\n    - line: [200, 0]\n` +
  `  high:\n${steps}${more}`;
const STEP = '    - from: [0, 80]\n    - line: [60, 80]\n    - line: [60, 50]\n    - line: [200, 50]\n';

const corners = (pieces: readonly Piece[]): string[] =>
  pieces.map((piece) => {
    const { x, y } = paramCurve(piece)(0);
    return `${Number(x.toFixed(9))},${Number(y.toFixed(9))}`;
  });

describe('a shoulder', () => {
  const part = partOf(onStraight(STEP, 'allowance: {saw: 5}\n'));
  const [, high] = part.edges as [Part['edges'][number], Part['edges'][number]];

  test('is square to the reference line, and the outline runs over its corners exactly', () => {
    expect(corners(finishedLine(part.shape))).toEqual(['0,0', '200,0', '200,50', '60,50', '60,80', '0,80']);
  });

  test('is square to the last bit, however its two stations are typed', () => {
    const typed = partOf(
      onStraight(STEP.replace('[60, 50]', '[6 cm, 50]').replace('[60, 80]', '[2.362204724409449 in, 80]')),
    );
    const [, edge] = typed.edges;
    const { from, to } = edge!.runs[1]!;
    expect(to.x).toBe(from.x);
  });

  test('has the saw line square outside it, at its allowance', () => {
    expect(corners(part.saw)).toEqual(expect.arrayContaining(['65,55', '65,85']));
  });

  test('has two offsets at its station, one on either side of it, and the one where the edge is elsewhere', () => {
    expect(offsetsAt(high, 60)).toEqual([80, 50]);
    expect(offsetsBeside(high, 60)).toEqual([
      { offset: 80, side: 'left' },
      { offset: 50, side: 'right' },
    ]);
    expect(offsetsBeside(high, 59.9)).toEqual([{ offset: 80 }]);
    expect(offsetsBeside(high, 60.1)).toEqual([{ offset: 50 }]);
  });

  test('is among the stations of the table, along its chord with a station to either corner', () => {
    expect(stationsOf(high, REFERENCE_LINE, 'mm', 50)).toEqual([0, 50, 60, 100, 150, 200]);
    const chord = chordLine(high);
    const [left, right] = shoulderCorners(high, chord);
    // The chord falls 30 in 200: a corner 30 lower lies 30·sin(atan 0.15) farther along it.
    expect(right!.station - left!.station).toBeCloseTo(30 * Math.sin(Math.atan(0.15)), 9);
    for (const { station } of [left!, right!]) {
      expect(stationsOf(high, chord, 'mm', 50)).toContain(station);
      expect(offsetsBeside(high, station, chord)).toHaveLength(1);
    }
  });

  test('is a landmark with both its corners, and a story stick reads either', () => {
    const marks = landmarks(part).filter(({ what }) => what !== 'end');
    expect(marks).toEqual([{ what: 'shoulder', at: { x: 60, y: 80 }, to: { x: 60, y: 50 }, edge: 'high' }]);
    const { ticks } = stickRow(part, high, REFERENCE_LINE, [0, 60, 200]);
    expect(ticks.filter(({ what }) => what === 'shoulder')).toEqual([
      { what: 'shoulder', station: 60, offset: 80 },
      { what: 'shoulder', station: 60, offset: 50 },
    ]);
  });

  test('is no corner of a line that is not fair, and its end grain no runout', () => {
    expect(fairnessOf(high.runs).remarks.map(({ code }) => code)).toEqual(['fairness.straight']);
    expect(worstRunout(part, 0).angle).toBe(0);
  });

  test('a narrow shoulder gives the least width', () => {
    // A notch 2 mm wide and 0.5 mm deep: no place taken along the lower edge stands under its corners alone.
    const notch =
      '    - from: [0, 50]\n    - line: [71, 50]\n    - line: [71, 49.5]\n    - line: [73, 49.5]\n    - line: [73, 50]\n    - line: [200, 50]\n';
    const { shape } = partOf(onStraight(notch));
    expect(shape.type === 'closed' && shape.leastWidth.width).toBeCloseTo(49.5, 9);
  });
});

describe('a quirk smaller than what lies beside it', () => {
  const quirk = onStraight(
    '    - from: [0, 80]\n    - line: [60, 80]\n    - line: [60, 78]\n    - line: [140, 78]\n    - line: [140, 80]\n    - line: [200, 80]\n',
    'allowance: {saw: 5}\n',
  );

  test('has its saw line all the same: a step as high, shifted out', () => {
    const at = corners(partOf(quirk).saw);
    expect(at).toEqual(expect.arrayContaining(['65,85', '65,83', '135,83', '135,85']));
  });

  test('has its template, with its shoulders as such', () => {
    const { part } = templateOf(partOf(quirk), {
      guide: 'bush',
      guideDiameter: 20,
      bitDiameter: 12,
      opening: false,
    });
    const told = landmarks(part).filter(({ what }) => what !== 'end');
    expect(told.map(({ what, at, to }) => [what, at.x, at.y, to?.y])).toEqual([
      ['shoulder', 56, 76, 74],
      ['shoulder', 144, 74, 76],
    ]);
  });

  test('as narrow a notch as the saw line does not fit into is a fault', () => {
    const narrow = quirk.replaceAll('[140,', '[68,');
    expect(faultsOf(narrow)).toMatchObject([{ code: 'parallel.no-room', key: 'allowance.saw' }]);
  });
});

describe('beside other things', () => {
  test('a strip held where it meets a shoulder leaves in line with what comes beyond it', () => {
    const held = partOf(
      onStraight(
        '    - from: [0, 80]\n    - line: [60, 80]\n    - line: [60, 75]\n    - batten: [200, 40]\n      through: [130, 65]\n      ends: [held, free]\n',
      ),
    );
    const strip = held.edges[1]!.runs[2]!;
    expect(paramCurve(strip.exact[0]!)(0).angle).toBeCloseTo(0, 9);
  });

  test.each([
    ['that a miter would cut off', '{miter: 45}', 'ends.shoulder'],
    ['that a tilt would cut off on the other face', '{bevel: 50}', 'ends.shoulder'],
    ['that a miter clears', '{miter: 4}', undefined],
  ])('a shoulder near an end %s', (_, end, code) => {
    const text = onStraight(STEP.replaceAll('[60,', '[180,'), `ends: {right: ${end}}\n`);
    expect(faultsOf(text).map((fault) => fault.code)).toEqual(code ? [code] : []);
    for (const { key, message } of faultsOf(text)) {
      expect(key).toBe('ends.right');
      expect(message).toContain('180');
    }
  });

  test('paper folds down along a tenon no farther than its shoulder', () => {
    const text = onStraight(STEP.replaceAll('[60,', '[180,'), 'ends: {right: {bevel: 10}}\n');
    const [, strip] = endStrips(partOf(text));
    expect(Math.abs(strip!.fold[0].x - strip!.fold[1].x)).toBeLessThanOrEqual(20 + 1e-9);
  });

  test('the seat rail of the hall bench is printed as one half', () => {
    const rail = samplePart('hall-bench/seat-rail.yaml');
    const { shape } = halfOf(rail);
    expect(shape.type).toBe('half');
    const steps = finishedLine(shape).filter(
      (one) => one.type === 'line' && one.from.x === one.to.x && one.from.x === IN,
    );
    expect(steps).toHaveLength(2);
  });
});

test('property: a stepped edge read from the other end is the mirror image, its two sides changed over', () => {
  const step = fc.record({
    run: fc.integer({ min: 3, max: 60 }),
    rise: fc.integer({ min: -20, max: 20 }).filter((by) => by !== 0),
  });
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: 6 }), (steps) => {
      let [x, y] = [0, 500];
      const points: [number, number][] = [[x, y]];
      for (const { run, rise } of steps) {
        x += run;
        points.push([x, y]);
        y += rise;
        points.push([x, y]);
      }
      x += 5;
      points.push([x, y]);
      const turned = points.map(([station, offset]): [number, number] => [x - station, offset]).reverse();
      const [one, other] = [points, turned].map((all) => partOf(stepped(all)));
      const inMirror = corners(other!.saw).map((at) => {
        const [station, offset] = at.split(',').map(Number);
        return `${Number((x - station!).toFixed(9))},${offset}`;
      });
      expect([...inMirror].sort()).toEqual([...corners(one!.saw)].sort());
      for (const { station, offset, side } of shoulderCorners(one!.edges[1]!)) {
        const beside = offsetsBeside(other!.edges[1]!, x - station);
        expect(beside).toContainEqual({ offset, side: side === 'left' ? 'right' : 'left' });
      }
    }),
  );
});

const stepped = (points: readonly [number, number][]): string => {
  const [first, ...rest] = points.map((at) => `[${at.join(', ')}]`);
  const end = points.at(-1)![0];
  return (
    `part: P\nunits: mm\nedges:\n  low:\n    - from: [0, 0]\n    - line: [${end}, 0]\n  high:\n    - from: ${first}\n` +
    `${rest.map((at) => `    - line: ${at}\n`).join('')}allowance: {saw: 1}\n`
  );
};
