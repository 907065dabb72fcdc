import { describe, expect, test } from 'vitest';
import { firstOf, itemAt, lastOf, neighbors } from '../../src/units/checked.ts';

describe('checked access returns the item or throws', () => {
  test('itemAt returns an item, even an undefined one', () => {
    expect(itemAt(['a', undefined], 1)).toBeUndefined();
    expect(itemAt(new Float64Array([1, 2]), 1)).toBe(2);
  });

  test.each([-1, 2, 0.5 + 2, Number.NaN])('itemAt throws for index %d of two items', (index) => {
    expect(() => itemAt(['a', 'b'], index)).toThrow(RangeError);
  });

  test('firstOf and lastOf return the ends and throw for an empty list', () => {
    expect([firstOf([1, 2, 3]), lastOf([1, 2, 3])]).toEqual([1, 3]);
    expect(() => firstOf([])).toThrow(RangeError);
    expect(() => lastOf([])).toThrow(RangeError);
  });

  test('neighbors pairs each item with the next', () => {
    expect(neighbors([1, 2, 3])).toEqual([
      [1, 2],
      [2, 3],
    ]);
    expect(neighbors([1])).toEqual([]);
    expect(neighbors([])).toEqual([]);
  });
});
