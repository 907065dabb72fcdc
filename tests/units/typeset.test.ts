import { expect, test } from 'vitest';
import { typesetFractions } from '../../src/units/typeset.ts';

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
