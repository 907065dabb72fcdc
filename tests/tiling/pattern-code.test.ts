import { expect, test } from 'vitest';
import { patternCode } from '../../src/tiling/pattern-code.ts';

test('a code is six digits and capitals without look-alikes', () => {
  for (let i = 0; i < 200; i++) expect(patternCode({ i })).toMatch(/^[2-9A-HJ-NP-Z]{6}$/);
});

test('values that differ have codes that differ', () => {
  const codes = new Set(Array.from({ length: 2000 }, (_, i) => patternCode([i * 0.1, 'leg'])));
  expect(codes.size).toBe(2000);
});

test('the last bits of a sine do not change the code, a hundredth of a millimetre does', () => {
  expect(patternCode([0.1 + 0.2])).toBe(patternCode([0.3]));
  expect(patternCode([10])).not.toBe(patternCode([10.01]));
  expect(patternCode([-0])).toBe(patternCode([0]));
});

test('nor do they where a length is on a rule: sixteenths of an inch are halfway between micrometres', () => {
  expect(25.4 / 16).toBe(1.5875);
  for (let k = 1; k < 5000; k++)
    for (const mm of [(k * 25.4) / 128, k * 0.0254, k * 0.05, k / 3]) {
      const code = patternCode(mm);
      expect(patternCode(mm * (1 + 4 * Number.EPSILON)), `${mm} mm`).toBe(code);
      expect(patternCode(mm * (1 - 4 * Number.EPSILON)), `${mm} mm`).toBe(code);
    }
});
