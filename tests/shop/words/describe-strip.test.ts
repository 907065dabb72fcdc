import { expect, test } from 'vitest';
import type { StripOptions } from '../../../src/shop/strip/strip-advice.ts';
import { adviseStrip } from '../../../src/shop/strip/strip-advice.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { describeNails, showForce, stripCautions } from '../../../src/shop/words/describe-strip.ts';
import { lengthFormat } from '../../../src/units/graduation.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { shallowLine } from '../lines.ts';

const rule = defaultRule('mm');
const ask: StripOptions = { species: findSpecies('white oak'), rule };
const line = shallowLine(1000, 50);
const codes = (more: Partial<StripOptions>, of = line): string[] =>
  stripCautions(adviseStrip(of, { ...ask, ...more }), lengthFormat(rule)).map(({ code }) => code);

test('showForce gives newtons and the force on the maker’s scales', () => {
  // 13.284 N / 9.80665 N and / 4.4482216152605 N, by definition of the kilogram- and the pound-force
  expect(showForce(13.284, 'mm')).toBe('13 N (1.4 kgf)');
  expect(showForce(13.284, 'in')).toBe('13 N (3.0 lbf)');
  expect(showForce(2.5, 'mm')).toBe('2.5 N (0.25 kgf)');
});

test('describeNails gives one line for each nail and a title, or nothing without nails', () => {
  expect(describeNails(adviseStrip(line, ask), rule)).toHaveLength(4);
  expect(describeNails(adviseStrip({ ...line, pins: [] }, ask), rule)).toEqual([]);
});

test('every strip has the cautions of springing, grain and creep', () => {
  expect(codes({ thickness: 6 })).toEqual(['strip.spring', 'strip.grain', 'strip.friction', 'strip.creep']);
});

test('a strip that may break has that caution first', () => {
  expect(codes({ thickness: 16, width: 20, nailDiameter: 6 })[0]).toBe('strip.risky');
  expect(codes({ thickness: 30 })).toEqual(expect.arrayContaining(['strip.breaks', 'strip.tips']));
});

test('nails too weak for a stiff strip give a caution', () => {
  // 12 mm in place of 6: eight times the force, 94 N, is borne by 2.5 mm nails and not by 2 mm ones.
  expect(codes({ thickness: 12 })).not.toContain('strip.nails');
  expect(codes({ thickness: 12, nailDiameter: 2 })).toContain('strip.nails');
});

test('a tapered strip has the caution of creeping', () => {
  const tapered = { ...line, pins: line.pins.map((pin, i) => ({ ...pin, share: 1 - i / 4 })) };
  expect(codes({ thickness: 6 }, tapered)).toContain('strip.taper');
});
