import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { Fault } from '../../units/fault.ts';
import { sleep, wrapError } from './system-errors.ts';

/** The work takes milliseconds. A lock seen for longer than this is left from a run that was killed, ms. */
const STALE_LOCK_MS = 5000;
/** More than a hundred runs at once need, or a run after several that were killed, ms. */
const MAX_WAIT_MS = 30_000;
/** The longest pause before the next attempt, ms. Pauses are random, so that two runs do not keep colliding. */
const MAX_PAUSE_MS = 20;

/**
 * Works on a file while no other run does. Each run places a lock with its own name beside the file, and works if it
 * sees no other lock. The later of two runs sees the earlier lock. A stale lock can be removed without harm to others.
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
      const wording = `${file}: other runs of fairlath are still writing this file after ${MAX_WAIT_MS / 1000} s. Try again when they end.`;
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

/** Judged by how long it was seen, not by its date: the clock of another machine may be wrong. */
function isStale(lock: string, firstSeen: Map<string, number>): boolean {
  const now = performance.now();
  const first = firstSeen.get(lock) ?? now;
  firstSeen.set(lock, first);
  return now - first > STALE_LOCK_MS;
}
