import { expect, test } from 'vitest';
import { showPercent } from '../../src/units/number-format.ts';
import { keepMeasuresTogether, typesetMeasures } from '../../src/units/typeset.ts';

test.each([
  ['12 11/32', '12 11⁄32'],
  ['3/4', '3⁄4'],
  ['-3/4" full', '-3⁄4″ full'],
  ['28-3/4"', '28-3⁄4″'],
  ['on "edge 2", 3" high', 'on “edge 2”, 3″ high'],
  ['1/2" or "back"', '1⁄2″ or “back”'],
  ['from 1/4 to 1/8.', 'from 1⁄4 to 1⁄8.'],
  ['(3/8)', '(3⁄8)'],
])('%s is typeset as %s', (text, set) => {
  expect(typesetMeasures(text)).toBe(set);
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
])('%s does not change', (text) => {
  expect(typesetMeasures(text)).toBe(text);
});

test('typesetting twice equals typesetting once', () => {
  const once = typesetMeasures('12 11/32 by 3/4');
  expect(typesetMeasures(once)).toBe(once);
});

test.each([
  ['lies 3/16" scant off', 'lies 3/16"_scant off'],
  ['12 11⁄32″ full', '12_11⁄32″_full'],
  ['A4 100 mm', 'A4 100_mm'],
  ['2 inches in 3 weeks', '2 inches in 3 weeks'],
])('a line does not break inside the measures of "%s"', (text, held) => {
  expect(keepMeasuresTogether(text)).toBe(held.replaceAll('_', '\u00a0'));
});

test('a percent sign has no space before it', () => {
  // The Chicago Manual of Style, 17th edition, 3.82: no space before %. The SI brochure sets one.
  expect(showPercent(0.00336, 2)).toBe('0.34%');
  expect(showPercent(0.531, 0)).toBe('53%');
});
