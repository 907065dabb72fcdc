/** The steps of the work, each a whole text of the job: going back and forward changes nothing else. */
export interface History {
  readonly past: readonly Step[];
  readonly now: Step;
  readonly future: readonly Step[];
}

interface Step {
  readonly text: string;
  /** What made it; steps of one burst (the same grip nudged, one stretch of typing) count as one. */
  readonly burst: string | undefined;
}

/** A day's work at a kilobyte a step. */
const MOST_STEPS = 1000;

export const begun = (text: string): History => ({ past: [], now: { text, burst: undefined }, future: [] });

/** One more step; what was undone before it is gone. The same text again is no step. */
export function stepped(history: History, text: string, burst?: string): History {
  const { past, now } = history;
  if (text === now.text) return history;
  const goesOn = burst !== undefined && burst === now.burst;
  return {
    past: goesOn ? past : [...past, now].slice(-MOST_STEPS),
    now: { text, burst },
    future: [],
  };
}

/** Ends a burst: the next step counts by itself. */
export const rested = (history: History): History => ({
  ...history,
  now: { ...history.now, burst: undefined },
});

export function back({ past, now, future }: History): History {
  const last = past.at(-1);
  return last ? { past: past.slice(0, -1), now: last, future: [now, ...future] } : { past, now, future };
}

export function forward({ past, now, future }: History): History {
  const [next, ...rest] = future;
  return next ? { past: [...past, now], now: next, future: rest } : { past, now, future };
}
