/** The item at an index that the caller knows to be in the list. @throws RangeError where it is not: a bug */
export function itemAt<T>(list: ArrayLike<T>, index: number): T {
  if (!(index >= 0 && index < list.length))
    throw new RangeError(`no item ${index} in a list of ${list.length}`);
  return list[index] as T;
}

export const firstOf = <T>(list: ArrayLike<T>): T => itemAt(list, 0);
export const lastOf = <T>(list: ArrayLike<T>): T => itemAt(list, list.length - 1);

/** Each item with the one after it: one pair fewer than there are items. */
export const neighbors = <T>(list: readonly T[]): [T, T][] =>
  list.slice(1).map((next, i) => [list[i] as T, next]);
