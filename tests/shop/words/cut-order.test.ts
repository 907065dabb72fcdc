import { describe, expect, test } from 'vitest';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { type CutStep, cutSteps } from '../../../src/shop/words/cut-order.ts';
import { describeBlade } from '../../../src/shop/words/describe-blade.ts';
import { sawCautions } from '../../../src/shop/words/saw-cautions.ts';
import type { LengthFormat } from '../../../src/units/graduation.ts';
import { partOf } from '../../part/jobs.ts';

const STRAIGHT = `
  lower:
    - from: [0, 0]
    - line: [900, 0]`;
const HOLLOW = `
  lower:
    - from: [0, 0]
    - arc: [900, 0]
      rise: 60`;
const BACK = `
  back:
    - from: [0, 90]
    - arc: [900, 90]
      rise: 80
`;

/** Half of an ellipse, 12 high on a chord of 94.3: radius 12²/47.2 = 3 mm at its ends, hollow from the wood above. */
const TIGHT_BELLY = `
  top:
    - from: [0, 160]
    - line: [240, 160]
  belly:
    - from: [0, 80]
    - line: [140, 80]
    - ellipse: [220, 130]
      rise: 12
    - line: [240, 130]
`;
const TENONS = `
  top:
    - from: [0, 70]
    - line: [30, 70]
    - line: [30, 90]
    - arc: [870, 90]
      rise: 80
    - line: [870, 70]
    - line: [900, 70]
`;

const partWith = (edges: string, more = '') =>
  partOf(`part: Leg\nunits: mm\nstock: {species: white oak, thickness: 40}\nedges:${edges}${more}`);
const wording: LengthFormat = {
  exact: (mm) => `${mm} mm`,
  rounded: (mm) => `${Math.round(mm)} mm`,
  unit: 'mm',
};

const stepsOf = (edges: string, more = ''): readonly CutStep[] => {
  const part = partWith(edges, more);
  return cutSteps(part, adviseSawing(part), wording);
};
const kinds = (steps: readonly CutStep[]): string[] => steps.map(([kind]) => kind);

describe('the order of cuts', () => {
  test('joints and leaning ends come before any curve, and a square end after it', () => {
    const steps = stepsOf(
      STRAIGHT + BACK,
      'ends: {left: {rake: 8, splay: 4}}\njoints:\n  - mortise: {at: 700, out: 40, length: 50, width: 10, depth: 20}\n',
    );
    expect(kinds(steps)).toEqual([
      'plane',
      'joints',
      'leaning end',
      'leave waste',
      'saw edge',
      'square ends',
    ]);
  });

  test('square ends wait where a straight edge stays, and come first where none does', () => {
    expect(kinds(stepsOf(STRAIGHT + BACK))).toEqual(['plane', 'leave waste', 'saw edge', 'square ends']);
    expect(kinds(stepsOf(HOLLOW + BACK))).toEqual(['plane', 'square ends', 'saw edge', 'saw edge']);
  });

  test('the hollow edge comes before the round one', () => {
    const [first, second] = stepsOf(HOLLOW + BACK).filter(([kind]) => kind === 'saw edge');
    expect(first![1]).toContain('"lower"');
    expect(second![1]).toContain('"back"');
  });

  test('layers are glued first, and the mirrored part comes last', () => {
    const leg = partOf(
      `part: Leg\nunits: mm\nquantity: 2\npair: mirrored\nstock: {species: white oak, thickness: 40, layers: 2}\nedges:${STRAIGHT}${BACK}ends: {left: {splay: 5}}\n`,
    );
    const steps = kinds(cutSteps(leg, adviseSawing(leg), wording));
    expect([steps[0], steps.at(-1)]).toEqual(['glue', 'mirrored part']);
  });

  test('a bend that no blade turns comes before its edge', () => {
    const steps = stepsOf(TIGHT_BELLY);
    expect(kinds(steps)).toEqual([
      'plane',
      'leave waste',
      'too tight',
      'too tight',
      'saw edge',
      'square ends',
    ]);
  });

  test('one line on a board is one cut', () => {
    expect(kinds(stepsOf(`${BACK.trimEnd()}\n`))).toEqual(['saw edge']);
  });

  test('shoulders are crosscut before the line that ends in them, without relief cuts', () => {
    expect(kinds(stepsOf(STRAIGHT + TENONS))).toEqual([
      'plane',
      'leave waste',
      'shoulders',
      'saw edge',
      'square ends',
    ]);
  });
});

describe('sawCautions', () => {
  const codes = (edges: string, more = '', height = 150) => {
    const part = partWith(edges, more);
    return sawCautions(part, { ...adviseSawing(part), height }, wording).map(({ code }) => code);
  };

  test('cautions that always hold are of fingers, guide, eyes, a stopped blade and the saw’s manual', () => {
    expect(codes(`${STRAIGHT + STRAIGHT.replace('lower', 'upper').replaceAll(', 0]', ', 50]')}\n`)).toEqual([
      'saw.manual',
      'saw.fingers',
      'saw.guide',
      'saw.wear',
      'saw.stop',
    ]);
  });

  test('a part with curves, leaning ends, thick stock or a short length has its cautions', () => {
    expect(codes(STRAIGHT + BACK)).toContain('saw.back-out');
    expect(codes(STRAIGHT + BACK, 'ends: {left: {miter: 5}}\n')).toContain('saw.leaning');
    expect(codes(STRAIGHT + BACK, '', 30)[0]).toBe('saw.too-high');
    expect(codes(BACK.replaceAll('900', '200'))).toContain('saw.short');
  });
});

describe('a board with shoulders', () => {
  const { blade, support } = adviseSawing(partWith(STRAIGHT + TENONS));

  test('describeBlade has one line for the shoulders and their outside corners', () => {
    const without = adviseSawing(partWith(STRAIGHT + BACK));
    expect(blade.corners.map(({ kind, ofShoulder }) => [kind, ofShoulder])).toEqual([
      ['inside', true],
      ['outside', true],
      ['outside', true],
      ['inside', true],
    ]);
    const lines = describeBlade(blade, wording).length;
    expect(lines).toBe(describeBlade(without.blade, wording).length + 1);
  });

  test('the board swings as it does without tenons, since it is not fed along shoulders', () => {
    const plain = partWith(
      `${STRAIGHT}
  top:
    - from: [30, 90]
    - arc: [870, 90]
      rise: 80
`
        .replace('[0, 0]', '[30, 0]')
        .replace('[900, 0]', '[870, 0]'),
    );
    expect(support.swing).toBeLessThan(adviseSawing(plain).support.swing * 1.2);
  });
});
