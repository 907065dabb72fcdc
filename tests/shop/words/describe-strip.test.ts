import { expect, test } from 'vitest';
import type { StripOptions } from '../../../src/shop/strip/choose-strip.ts';
import { adviseStrip } from '../../../src/shop/strip/strip-advice.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import {
  describeNails,
  describeStrip,
  showForce,
  stripCautions,
} from '../../../src/shop/words/describe-strip.ts';
import { defaultRule, showLength } from '../../../src/units/rule.ts';
import { shallowLine } from '../lines.ts';

const rule = defaultRule('mm');
const length = (mm: number): string => showLength(mm, rule);
const ask: StripOptions = { species: findSpecies('white oak'), rule };
const line = shallowLine(1000, 50);
const codes = (more: Partial<StripOptions>, of = line): string[] =>
  stripCautions(adviseStrip(of, { ...ask, ...more }), length, 'mm').map(({ code }) => code);

test('a force is told in newtons and as it feels', () => {
  // 13.284 N / 9.80665 N and / 4.4482216152605 N, by definition of the kilogram- and the pound-force
  expect(showForce(13.284, 'mm')).toBe('13 N (1.4 kgf)');
  expect(showForce(13.284, 'in')).toBe('13 N (3.0 lbf)');
  expect(showForce(2.5, 'mm')).toBe('2.5 N (0.25 kgf)');
});

test('the strip in words', () => {
  expect(describeStrip(adviseStrip(line, { ...ask, thickness: 6 }), length, 'mm')).toEqual([
    'White oak, 6 mm thick, 20 mm wide, 1400 mm long: 200 mm or more past the line at each end.',
    'Strain 0.18 % at station 500 mm, radius 1666.5 mm full: safe. ' +
      'Safe up to 0.43 %; the average clear piece breaks at about 0.85 %.',
    'Thickest safe strip of white oak: 14 mm.',
  ]);
});

test('the nails in words', () => {
  const advice = adviseStrip(line, { ...ask, thickness: 6, nailDiameter: 3 });
  // 1.1 × 13.284 N at 25 mm wide (see the strip's own test) is 11.69 N at 20 mm
  expect(describeNails(advice, rule)).toEqual([
    'Trace along the upper face. The middles of 3 mm nails:',
    'station 0 mm, offset 1.5 mm: above the strip, 5.8 N (0.60 kgf).',
    'station 500 mm, offset 42.5 mm: below the strip, 12 N (1.2 kgf).',
    'station 1000 mm, offset 1.5 mm: above the strip, 5.8 N (0.60 kgf).',
  ]);
});

test('a line without nails has none to tell of', () => {
  expect(describeNails(adviseStrip({ ...line, pins: [] }, ask), rule)).toEqual([]);
});

test('a curve tighter than any strip says so instead of a thickness', () => {
  const words = describeStrip(adviseStrip(shallowLine(120, 30), ask), length, 'mm').at(-1);
  expect(words).toContain('No strip of white oak');
  expect(words).toContain('0.34 mm');
});

test('every strip is to be let go with care, chosen for its grain and not left sprung', () => {
  expect(codes({ thickness: 6 })).toEqual(['strip.spring', 'strip.grain', 'strip.creep']);
});

test('a strip that may break is cautioned first, with the eyes in mind', () => {
  expect(codes({ thickness: 16, width: 20, nailDiameter: 6 })[0]).toBe('strip.risky');
  expect(codes({ thickness: 30 })).toEqual(expect.arrayContaining(['strip.breaks', 'strip.tips']));
  const [first] = stripCautions(adviseStrip(line, { ...ask, thickness: 30 }), length, 'mm');
  expect(first!.message).toContain('eye protection');
});

test('a thinner strip is advised only where the rule can measure one', () => {
  const said = (of: typeof line, thickness: number): string =>
    stripCautions(adviseStrip(of, { ...ask, thickness }), length, 'mm')[0]!.message;
  for (const thickness of [16, 30]) {
    expect(said(line, thickness)).toContain('Take a thinner one.');
    expect(said(line, thickness)).not.toContain('trace the printed pattern');
  }
  // 0.34 mm would be safe, which a rule of 0.5 mm does not show.
  expect(said(shallowLine(120, 30), 3)).toContain('Ease the curve, or trace the printed pattern instead.');
  expect(said(shallowLine(120, 30), 3)).not.toContain('thinner');
});

test('nails too weak for a stiff strip are told', () => {
  // 12 mm in place of 6: eight times the force, 94 N, is borne by 2.5 mm nails and not by 2 mm ones.
  expect(codes({ thickness: 12 })).not.toContain('strip.nails');
  expect(codes({ thickness: 12, nailDiameter: 2 })).toContain('strip.nails');
});

test('a tapered strip is to be stopped at its thick end', () => {
  const tapered = { ...line, pins: line.pins.map((pin, i) => ({ ...pin, share: 1 - i / 4 })) };
  expect(codes({ thickness: 6 }, tapered)).toContain('strip.taper');
});

test('an inch job speaks inches and pounds', () => {
  const inches = defaultRule('in');
  const inInches = (mm: number): string => showLength(mm, inches);
  const advice = adviseStrip(line, { ...ask, rule: inches });
  expect(describeStrip(advice, inInches, 'in').join('\n')).toContain('3/4 in wide');
  expect(describeNails(advice, inches).join('\n')).toContain('lbf');
});
