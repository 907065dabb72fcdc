/** Where the browser keeps the job between two visits; `before` is what the last visit left. */
const [NOW, BEFORE] = ['fairlath.job', 'fairlath.job-before'] as const;

/** The tab's own shelf comes first: on the one that all tabs share lies what any of them left last. */
const SHELVES: readonly (() => Storage)[] = [() => sessionStorage, () => localStorage];

/** What can be kept; a browser may refuse, and then nothing is: `keep` says so. */
function attempt<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

/** The same on each shelf; undefined where the browser refuses. */
const onEach = <T>(work: (shelf: Storage) => T): (T | undefined)[] =>
  SHELVES.map((shelf) => attempt(() => work(shelf())));

/**
 * What the last visit left, in this tab or else in any; from now on this visit's work is kept beside it. A visit that
 * left the page's first part as it was has left nothing, and what lay there before is still kept.
 */
export function takeOver(first: string): string | undefined {
  return onEach((shelf) => {
    const left = [NOW, BEFORE]
      .map((key) => shelf.getItem(key))
      .find((text) => text !== null && text !== first);
    if (left != null) shelf.setItem(BEFORE, left);
    shelf.removeItem(NOW);
    return left ?? undefined;
  }).find((left) => left !== undefined);
}

/**
 * Whether the browser has kept it beyond this tab. The page's first part is kept over nothing: another tab's work may
 * lie there.
 */
export const keep = (text: string, first: string): boolean =>
  onEach((shelf) => {
    shelf.setItem(NOW, text === first ? (shelf.getItem(NOW) ?? text) : text);
    return true;
  }).at(-1) ?? false;

/** The offer is turned down or taken: what another tab left stays. */
export const forgetBefore = (offered: string): void => {
  onEach((shelf) => {
    if (shelf.getItem(BEFORE) === offered) shelf.removeItem(BEFORE);
  });
};
