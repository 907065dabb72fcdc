import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { Fault } from '../../units/fault.ts';
import { fileFault } from './atomic-files.ts';
import { sleep } from './sleep.ts';

/** The work takes milliseconds: a sign seen for as long is left of a run that was killed, ms. */
const STALE_MS = 5000;
/** A hundred runs at once are done sooner, and so is one after a few that were killed, ms. */
const MAX_WAIT_MS = 30_000;
/** The longest pause before the next try, ms. No two are alike, so that two runs do not go on meeting. */
const MAX_PAUSE_MS = 20;

/**
 * Does work on a file while no other run does. Each run puts up a sign of its own beside the file, then looks round: it
 * works if there is no other, else takes its own down and tries again. Of two, the later sees the sooner's, so that never
 * both work. Every sign has a name that no other has: to take down one that was left can end no other's work.
 *
 * @throws Fault `file.busy`; `file.failed` where no sign can be put up
 */
export function withLock<T>(file: string, work: () => T): T {
  const until = performance.now() + MAX_WAIT_MS;
  const firstSeen = new Map<string, number>();
  for (;;) {
    const ownLock = newLockPath(file);
    try {
      const otherLocks = placeLock(file, ownLock);
      if (otherLocks.length === 0) return work();
      for (const sign of otherLocks) if (isStale(sign, firstSeen)) rmSync(sign, { force: true });
    } finally {
      rmSync(ownLock, { force: true });
    }
    if (performance.now() > until) throw busyFault(file);
    sleep(Math.random() * MAX_PAUSE_MS);
  }
}

const lockPrefix = (file: string): string => `.${basename(file)}.`;
const LOCK_SUFFIX = '.busy';

const newLockPath = (file: string): string =>
  join(
    dirname(file),
    `${lockPrefix(file)}${process.pid}-${Math.random().toString(36).slice(2)}${LOCK_SUFFIX}`,
  );

/** Puts up a sign; the other signs that stand then. */
function placeLock(file: string, own: string): string[] {
  try {
    writeFileSync(own, '', { flag: 'wx' });
    return readdirSync(dirname(file))
      .filter((name) => name.startsWith(lockPrefix(file)) && name.endsWith(LOCK_SUFFIX))
      .map((name) => join(dirname(file), name))
      .filter((sign) => sign !== own);
  } catch (error) {
    throw fileFault(file, error);
  }
}

/** By how long it has been watched, not by its date: the clock of another machine's disk may be off. */
function isStale(sign: string, since: Map<string, number>): boolean {
  const now = performance.now();
  const first = since.get(sign) ?? now;
  since.set(sign, first);
  return now - first > STALE_MS;
}

const busyFault = (file: string): Fault =>
  new Fault(
    'file.busy',
    `${file}: other runs of fairlath have been writing it for ${MAX_WAIT_MS / 1000} s. Try again when they have ended.`,
  );
