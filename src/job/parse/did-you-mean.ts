import { itemAt } from '../../units/checked.ts';

/** With more edits, names that only look alike would be suggested. */
const MAX_EDITS = 2;

/** Fewer letters may be short for too many names. */
const MIN_ABBREVIATION = 3;

/** The name that was probably meant: the closest within two edits, or else the only one that it can be short for. */
export function closestName(written: string, names: readonly string[]): string | undefined {
  const typed = written.toLowerCase();
  const maxEdits = Math.min(MAX_EDITS, Math.max(1, Math.floor(typed.length / 2)));
  const near = names
    .map((name) => ({ name, distance: editDistance(typed, name.toLowerCase()) }))
    // A name with every letter changed is another word.
    .filter(({ name, distance }) => distance <= maxEdits && distance < name.length)
    // On a tie, a letter left out is likelier than one changed: "ot" is "out" before "at".
    .toSorted(
      (a, b) =>
        a.distance - b.distance ||
        Number(isSubsequence(typed, b.name)) - Number(isSubsequence(typed, a.name)),
    );
  if (near[0]) return near[0].name;
  const [only, another] = names.filter((name) => isAbbreviationOf(typed, name));
  return another === undefined ? only : undefined;
}

/** Whether a word is the name with letters left out, never the first: "thru", "dia", "qty". */
const isAbbreviationOf = (word: string, name: string): boolean =>
  word.length >= MIN_ABBREVIATION && word[0] === name[0]?.toLowerCase() && isSubsequence(word, name);

function isSubsequence(word: string, name: string): boolean {
  let found = 0;
  for (const letter of name.toLowerCase()) if (letter === word[found]) found++;
  return found === word.length;
}

/** Optimal string alignment distance; Infinity where the lengths differ by more than MAX_EDITS. */
export function editDistance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > MAX_EDITS) return Number.POSITIVE_INFINITY;
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = itemAt(row, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isCrossed = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const crossed = isCrossed ? itemAt(before, j - 2) + 1 : changed;
      next.push(Math.min(changed, crossed, itemAt(row, j) + 1, itemAt(next, j - 1) + 1));
    }
    [before, row] = [row, next];
  }
  return itemAt(row, b.length);
}

/** The cure for a wrong name. */
export function didYouMean(written: string, names: readonly string[], meant = closestName(written, names)) {
  const known = `Choose from: ${names.join(', ')}.`;
  return meant === undefined ? known : `Did you mean "${meant}"? ${known}`;
}
