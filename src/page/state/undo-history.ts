/** The steps of the work, each a whole text of the job: going back and forward changes nothing else. */
export interface History {
  readonly past: readonly Step[];
  readonly now: Step;
  readonly future: readonly Step[];
  /** How many jobs have lain on the bench: the number of one is never another's, even once it is undone. */
  readonly jobs: number;
}

interface Step {
  readonly text: string;
  /** What made it; steps of one burst (the same grip nudged, one stretch of typing) count as one. */
  readonly burst: string | undefined;
  /** Which of the jobs that have lain on the bench: another one taken up is a step, too, and loses nothing. */
  readonly job: number;
}

/** A day's work at a kilobyte a step. */
const MOST_STEPS = 1000;

export const begun = (text: string): History => ({
  past: [],
  now: { text, burst: undefined, job: 0 },
  future: [],
  jobs: 1,
});

/** One more step; what was undone before it is gone. The same text again is no step. */
export function stepped(history: History, text: string, burst?: string): History {
  return text === history.now.text ? history : goneOn(history, { text, burst, job: history.now.job });
}

/** Another job takes the place of this one. */
export const another = (history: History, text: string, burst?: string): History =>
  goneOn({ ...history, jobs: history.jobs + 1 }, { text, burst, job: history.jobs });

function goneOn({ past, now, jobs }: History, step: Step): History {
  const goesOn = step.burst !== undefined && step.burst === now.burst;
  return { past: goesOn ? past : [...past, now].slice(-MOST_STEPS), now: step, future: [], jobs };
}

/** Ends a burst: the next step counts by itself. */
export const rested = (history: History): History => ({
  ...history,
  now: { ...history.now, burst: undefined },
});

export function back(history: History): History {
  const { past, now, future } = history;
  const last = past.at(-1);
  return last ? { ...history, past: past.slice(0, -1), now: last, future: [now, ...future] } : history;
}

export function forward(history: History): History {
  const { past, now, future } = history;
  const [next, ...rest] = future;
  return next ? { ...history, past: [...past, now], now: next, future: rest } : history;
}
