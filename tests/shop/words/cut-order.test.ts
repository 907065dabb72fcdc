import { describe, expect, test } from 'vitest';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { cutOrder } from '../../../src/shop/words/cut-order.ts';
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

const partWith = (edges: string, more = '') =>
  partOf(`part: Leg\nunits: mm\nstock: {species: white oak, thickness: 40}\nedges:${edges}${more}`);
const wording: LengthFormat = {
  exact: (mm) => `${mm} mm`,
  rounded: (mm) => `${Math.round(mm)} mm`,
  unit: 'mm',
};

function orderOf(edges: string, more = ''): string[] {
  const part = partWith(edges, more);
  const { edges: sawn, blade, support } = adviseSawing(part);
  return cutOrder(part, sawn, blade, support, wording);
}
const place = (steps: readonly string[], what: RegExp): number => steps.findIndex((step) => what.test(step));

describe('the order of cuts', () => {
  test('joints and leaning ends come before any curve', () => {
    const steps = orderOf(
      STRAIGHT + BACK,
      'ends: {left: {rake: 8, splay: 4}}\njoints:\n  - mortise: {at: 700, out: 40, length: 50, width: 10, depth: 20}\n',
    );
    const [joints, left, curve, right] = [
      /joints/,
      /left end .*miter 8°/,
      /Saw "back"/,
      /Square the right end/,
    ];
    expect(place(steps, joints)).toBeGreaterThanOrEqual(0);
    expect(place(steps, joints)).toBeLessThan(place(steps, left));
    expect(place(steps, left)).toBeLessThan(place(steps, curve));
    expect(place(steps, curve)).toBeLessThan(place(steps, right));
  });

  test('square ends wait where a straight edge stays, and come first where none does', () => {
    const straight = orderOf(STRAIGHT + BACK);
    expect(place(straight, /Square the left and right ends last, "lower"/)).toBe(straight.length - 1);
    const curved = orderOf(HOLLOW + BACK);
    expect(place(curved, /Square the left and right ends now/)).toBe(0);
  });

  test('the hollow edge first, its offcut taped back for the other', () => {
    const steps = orderOf(HOLLOW + BACK);
    expect(place(steps, /Saw "lower" .*hollow/)).toBeLessThan(place(steps, /Tape its offcut.*saw "back"/));
  });

  test('layers are glued first; the other hand of a pair comes last', () => {
    const part = (stock: string) =>
      partOf(
        `part: Leg\nunits: mm\nquantity: 2\npair: mirrored\nstock: {${stock}}\nedges:${STRAIGHT}${BACK}ends: {left: {splay: 5}}\n`,
      );
    const leg = part('species: white oak, thickness: 40, layers: 2');
    const { edges, blade, support } = adviseSawing(leg);
    const steps = cutOrder(leg, edges, blade, support, wording);
    expect(steps[0]).toMatch(/Glue up the 2 layers/);
    // print gives the other hand sheets of its own.
    expect(steps.at(-1)).toMatch(/other hand.*mirrored pattern.*far edge against the gauge.*tilt stays/);
  });

  test('what no blade turns is bored first, and past an outside corner the saw runs out', () => {
    // Half of an ellipse, 12 high on a chord of 94.3: radius 12²/47.2 = 3 mm at its ends, hollow from the wood above.
    const steps = orderOf(`
  top:
    - from: [0, 160]
    - line: [240, 160]
  belly:
    - from: [0, 80]
    - line: [140, 80]
    - ellipse: [220, 130]
      rise: 12
    - line: [240, 130]
`);
    const bore = place(steps, /^Bore the hollow at station 1[34]\d mm \("?belly"?\), which no blade turns/);
    expect(bore).toBeGreaterThanOrEqual(0);
    expect(bore).toBeLessThan(
      place(steps, /^Saw "?belly"? just outside the line, out through the waste past every out/),
    );
    expect(steps.join(' ')).not.toContain('in one piece');
  });

  test('one line on a board is one cut', () => {
    expect(orderOf(`${BACK.trimEnd()}\n`)).toEqual([
      'Saw "back" just outside the line, its waste in one piece.',
    ]);
  });
});

describe('cautions', () => {
  const codes = (edges: string, more = '', height = 150) => {
    const part = partWith(edges, more);
    return sawCautions(part, adviseSawing(part).edges, height, wording).map(({ code }) => code);
  };

  test('what always holds: fingers, guide, eyes, the saw’s own manual', () => {
    expect(codes(`${STRAIGHT + STRAIGHT.replace('lower', 'upper').replaceAll(', 0]', ', 50]')}\n`)).toEqual([
      'saw.fingers',
      'saw.guide',
      'saw.wear',
      'saw.manual',
    ]);
  });

  test('what holds for this part: curves, leaning ends, stock thicker than the saw is high', () => {
    expect(codes(STRAIGHT + BACK)).toContain('saw.back-out');
    expect(codes(STRAIGHT + BACK, 'ends: {left: {miter: 5}}\n')).toContain('saw.leaning');
    expect(codes(STRAIGHT + BACK, '', 30)[0]).toBe('saw.too-high');
    expect(codes(BACK.replaceAll('900', '200'))).toContain('saw.short');
  });
});

describe('shoulders', () => {
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
  const part = partWith(STRAIGHT + TENONS);
  const { blade, support, edges } = adviseSawing(part);

  test('are crosscut before the line that ends in them, and no relief cut is told there', () => {
    const steps = cutOrder(part, edges, blade, support, wording);
    const [crosscut, curve] = [/^Crosscut the shoulder/, /^Saw "top"/].map((what) => place(steps, what));
    expect(crosscut).toBeGreaterThanOrEqual(0);
    expect(crosscut!).toBeLessThan(curve!);
    expect(steps[crosscut!]).toMatch(/30 mm \(top\), 870 mm \(top\)/);
    expect(place(steps, /relief/)).toBe(-1);
  });

  test('are told with the blade in one line, their outside corners with them', () => {
    const told = describeBlade(blade, wording).filter((line) => /corner|shoulder/.test(line));
    expect(told).toHaveLength(1);
    expect(blade.corners.map(({ kind, ofShoulder }) => [kind, ofShoulder])).toEqual([
      ['inside', true],
      ['outside', true],
      ['outside', true],
      ['inside', true],
    ]);
  });

  test('do not swing the board: it is not fed along them', () => {
    // Fed along the arc alone the board swings as much as without tenons.
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
