/** The items of a list that are there, of some that apply only now and then. */
export const present = <T>(...items: readonly (T | false | undefined)[]): T[] =>
  items.filter((item): item is T => item !== false && item !== undefined);

/** A list in a sentence, `last` before its last item: "a, b or c". */
export const joinList = (items: readonly string[], last: string): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')}${last}${items.at(-1)}`;
