/** The steps of the work, each a whole text of the job: going back and forward changes nothing else. */
export interface History {
  readonly past: readonly HistoryEntry[];
  readonly now: HistoryEntry;
  readonly future: readonly HistoryEntry[];
  /** How many jobs have lain on the bench: the number of one is never another's, even once it is undone. */
  readonly jobCount: number;
}

interface HistoryEntry {
  readonly text: string;
  /** What made it; steps of one burst (the same grip nudged, one stretch of typing) count as one. */
  readonly coalesceKey: string | undefined;
  /** Which of the jobs that have lain on the bench: another one taken up is a step, too, and loses nothing. */
  readonly jobNumber: number;
}

/** A day's work at a kilobyte a step. */
const MAX_STEPS = 1000;

export const startHistory = (text: string): History => ({
  past: [],
  now: { text, coalesceKey: undefined, jobNumber: 0 },
  future: [],
  jobCount: 1,
});

/** One more step; what was undone before it is gone. The same text again is no step. */
export function pushText(history: History, text: string, coalesceKey?: string): History {
  return text === history.now.text
    ? history
    : pushEntry(history, { text, coalesceKey, jobNumber: history.now.jobNumber });
}

/** Another job takes the place of this one. */
export const pushJob = (history: History, text: string, coalesceKey?: string): History =>
  pushEntry(
    { ...history, jobCount: history.jobCount + 1 },
    { text, coalesceKey, jobNumber: history.jobCount },
  );

function pushEntry({ past, now, jobCount }: History, step: HistoryEntry): History {
  const goesOn = step.coalesceKey !== undefined && step.coalesceKey === now.coalesceKey;
  return { past: goesOn ? past : [...past, now].slice(-MAX_STEPS), now: step, future: [], jobCount };
}

/** Ends a burst: the next step counts by itself. */
export const endCoalescing = (history: History): History => ({
  ...history,
  now: { ...history.now, coalesceKey: undefined },
});

export function undo(history: History): History {
  const { past, now, future } = history;
  const last = past.at(-1);
  return last ? { ...history, past: past.slice(0, -1), now: last, future: [now, ...future] } : history;
}

export function redo(history: History): History {
  const { past, now, future } = history;
  const [next, ...rest] = future;
  return next ? { ...history, past: [...past, now], now: next, future: rest } : history;
}
