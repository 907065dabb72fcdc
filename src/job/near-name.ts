/** Slips of the pen forgiven in a name: a longer one would suggest names that only look alike. */
const MAX_SLIPS = 2;

/** The name that was probably meant: the nearest one within two slips, if any is. */
export function nearName(written: string, names: readonly string[]): string | undefined {
  const slips = Math.min(MAX_SLIPS, Math.floor(written.length / 2));
  const near = names
    .map((name) => ({ name, distance: editDistance(written.toLowerCase(), name) }))
    .filter(({ distance }) => distance <= slips)
    .toSorted((a, b) => a.distance - b.distance);
  return near[0]?.name;
}

/** Letters to add, drop or change to get from one word to another; more than MAX_SLIPS is not counted. */
function editDistance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > MAX_SLIPS) return Number.POSITIVE_INFINITY;
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(changed, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[b.length]!;
}

/** The cure for a wrong name: what was probably meant, and all that is known here. */
export function suggest(written: string, names: readonly string[]): string {
  const near = nearName(written, names);
  const known = `Known here: ${names.join(', ')}.`;
  return near === undefined ? known : `Did you mean "${near}"? ${known}`;
}
