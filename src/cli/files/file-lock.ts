import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { Fault } from '../../units/fault.ts';
import { sleep, wrapError } from './system-errors.ts';

/** The work takes milliseconds: a lock seen for as long is left from a run that was killed, ms. */
const STALE_LOCK_MS = 5000;
/** A hundred runs at once take less, and so does one after a few that were killed, ms. */
const MAX_WAIT_MS = 30_000;
/** The longest pause before the next attempt, ms. Pauses are random: two runs do not keep colliding. */
const MAX_PAUSE_MS = 20;

/**
 * Works on a file while no other run does. Each run places a lock of its own name beside the file and works if there
 * is no other. The later of two runs sees the lock of the earlier, and to remove a stale lock ends no other's work.
 */
export function withLock<T>(file: string, work: () => T): T {
  const until = performance.now() + MAX_WAIT_MS;
  const firstSeen = new Map<string, number>();
  for (;;) {
    const ownLock = newLockPath(file);
    try {
      const otherLocks = wrapError(file, () => placeLock(file, ownLock));
      if (otherLocks.length === 0) return work();
      for (const lock of otherLocks) if (isStale(lock, firstSeen)) rmSync(lock, { force: true });
    } finally {
      rmSync(ownLock, { force: true });
    }
    if (performance.now() > until) {
      const wording = `${file}: other runs of fairlath have been writing it for ${MAX_WAIT_MS / 1000} s. Try again when they have ended.`;
      throw new Fault('file.busy', wording);
    }
    sleep(Math.random() * MAX_PAUSE_MS);
  }
}

const LOCK_SUFFIX = '.busy';
const lockPrefix = (file: string): string => join(dirname(file), `.${basename(file)}.`);

const newLockPath = (file: string): string =>
  `${lockPrefix(file)}${process.pid}-${Math.random().toString(36).slice(2)}${LOCK_SUFFIX}`;

function placeLock(file: string, own: string): string[] {
  writeFileSync(own, '', { flag: 'wx' });
  return readdirSync(dirname(file))
    .map((name) => join(dirname(file), name))
    .filter((lock) => lock.startsWith(lockPrefix(file)) && lock.endsWith(LOCK_SUFFIX) && lock !== own);
}

/** By the time it has been watched, not by its date: the clock of another machine's disk may be off. */
function isStale(lock: string, firstSeen: Map<string, number>): boolean {
  const now = performance.now();
  const first = firstSeen.get(lock) ?? now;
  firstSeen.set(lock, first);
  return now - first > STALE_LOCK_MS;
}
