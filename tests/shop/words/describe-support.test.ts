import { expect, test } from 'vitest';
import { showMass } from '../../../src/shop/words/describe-support.ts';

test('a weight is told in the maker’s unit', () => {
  // 1 lb is 0.45359237 kg by definition
  expect(showMass(4.5359237, 'in')).toBe('10.0 lb');
  expect(showMass(4.5359237, 'mm')).toBe('4.5 kg');
  expect(showMass(0.354, 'mm')).toBe('0.35 kg');
});
