import { expect, test } from 'vitest';
import { showPercent } from '../../src/units/number-format.ts';
import { keepMeasuresTogether, typesetFractions } from '../../src/units/typeset.ts';

test.each([
  ['12 11/32', '12 11⁄32'],
  ['3/4', '3⁄4'],
  ['-3/4 in full', '-3⁄4 in full'],
  ['28-3/4"', '28-3⁄4"'],
  ['from 1/4 to 1/8.', 'from 1⁄4 to 1⁄8.'],
  ['(3/8)', '(3⁄8)'],
])('%s is set as %s', (text, set) => {
  expect(typesetFractions(text)).toBe(set);
});

test.each([
  '1/2/3',
  '3/4/2024',
  '05/06',
  '1.5/2',
  '1/2.5',
  'and/or',
  'part/3',
  'A1/2',
  '312.5 mm',
  '3/0',
  '',
  '1⁄2',
])('%s stays as it is', (text) => {
  expect(typesetFractions(text)).toBe(text);
});

test('setting twice is setting once', () => {
  const once = typesetFractions('12 11/32 by 3/4');
  expect(typesetFractions(once)).toBe(once);
});

test.each([
  ['lies 3/16 in shy off', 'lies 3/16_in_shy off'],
  ['12 11⁄32 in full', '12_11⁄32_in_full'],
  ['6 to 12 % of it', '6 to 12_% of it'],
  ['A4 100 mm', 'A4 100_mm'],
  ['2 inches in 3 weeks', '2 inches in 3 weeks'],
])('in "%s" a measure holds together', (text, held) => {
  expect(keepMeasuresTogether(text)).toBe(held.replaceAll('_', '\u00a0'));
});

test('a share has a space before its sign', () => {
  // The SI brochure (9th edition, 5.4.7) and ISO 80000-1: a space between the number and %.
  expect(showPercent(0.00336, 2)).toBe('0.34 %');
  expect(showPercent(0.531, 0)).toBe('53 %');
});
