/** The items that apply. */
export const present = <T>(...items: readonly (T | false | undefined)[]): T[] =>
  items.filter((item): item is T => item !== false && item !== undefined);

/** A list in a sentence, `last` before its last item: "a, b or c". */
export const joinList = (items: readonly string[], last: string): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')}${last}${items.at(-1)}`;

/** Items one after the other that have something in common, group by group. */
export function groupConsecutive<T, K>(items: readonly T[], keyOf: (item: T) => K): [K, T[]][] {
  const groups: [K, T[]][] = [];
  for (const item of items) {
    const key = keyOf(item);
    const last = groups.at(-1);
    if (last && last[0] === key) last[1].push(item);
    else groups.push([key, [item]]);
  }
  return groups;
}

/** Sorted as their keys are in `order`; all others after them. */
export function sortByRank<T, K>(items: readonly T[], order: readonly K[], keyOf: (item: T) => K): T[] {
  const rank = (item: T): number => order.indexOf(keyOf(item)) + 1 || order.length + 1;
  return items.toSorted((a, b) => rank(a) - rank(b));
}
