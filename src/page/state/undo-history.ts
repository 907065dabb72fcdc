/** The steps of the work. Each is a whole job text: undo and redo change nothing else. */
export interface History {
  readonly past: readonly HistoryEntry[];
  readonly now: HistoryEntry;
  readonly future: readonly HistoryEntry[];
  /** Counts every job ever opened, so that a number is never used twice, even after an undo. */
  readonly jobCount: number;
}

interface HistoryEntry {
  readonly text: string;
  /** Steps with the same key (one handle nudged, one stretch of typing) count as one. */
  readonly coalesceKey: string | undefined;
  readonly jobNumber: number;
}

const MAX_STEPS = 1000;

export const startHistory = (text: string): History => ({
  past: [],
  now: { text, coalesceKey: undefined, jobNumber: 0 },
  future: [],
  jobCount: 1,
});

/** Adds a step and drops the redo steps. The same text again is not a step. */
export function pushText(history: History, text: string, coalesceKey?: string): History {
  return text === history.now.text
    ? history
    : pushEntry(history, { text, coalesceKey, jobNumber: history.now.jobNumber });
}

export const pushJob = (history: History, text: string, coalesceKey?: string): History =>
  pushEntry(
    { ...history, jobCount: history.jobCount + 1 },
    { text, coalesceKey, jobNumber: history.jobCount },
  );

function pushEntry({ past, now, jobCount }: History, step: HistoryEntry): History {
  const goesOn = step.coalesceKey !== undefined && step.coalesceKey === now.coalesceKey;
  return { past: goesOn ? past : [...past, now].slice(-MAX_STEPS), now: step, future: [], jobCount };
}

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
