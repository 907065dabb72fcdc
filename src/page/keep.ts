/** Where the browser keeps the job between two visits; `before` is what the last visit left. */
const [NOW, BEFORE] = ['fairlath.job', 'fairlath.job-before'] as const;

/** What can be kept; a browser may refuse, and then nothing is: `keep` says so. */
function attempt<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

/**
 * What the last visit left; from now on this visit's work is kept beside it. A visit that left the page's first part as
 * it was has left nothing, and what lay there before is still kept.
 */
export function takeOver(first: string): string | undefined {
  return attempt(() => {
    const left = [NOW, BEFORE]
      .map((key) => localStorage.getItem(key))
      .find((text) => text !== null && text !== first);
    if (left != null) localStorage.setItem(BEFORE, left);
    localStorage.removeItem(NOW);
    return left ?? undefined;
  });
}

/** Whether the browser has kept it. */
export const keep = (text: string): boolean =>
  attempt(() => {
    localStorage.setItem(NOW, text);
    return true;
  }) ?? false;

/** The offer is turned down or taken. */
export const forgetBefore = (): void => {
  attempt(() => localStorage.removeItem(BEFORE));
};
