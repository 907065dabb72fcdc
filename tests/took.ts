import { readFileSync } from 'node:fs';

/** An answer takes a fiftieth of a second, and hangs after two, ms. */
export const SOON_MS = 2000;

/**
 * What some work takes, ms. On a busy machine the clock runs on while nothing is done; where the processor's time is that
 * of the whole process, it counts what other tests do meanwhile. The work took no longer than the less of the two.
 */
export function took(work: () => void): number {
  const started = performance.now();
  const before = processorTime();
  work();
  return Math.min(performance.now() - started, processorTime() - before);
}

/** Of this thread alone, ms, where the system tells that (proc(5), schedstat: nanoseconds first); else of the process. */
function processorTime(): number {
  try {
    return Number.parseInt(readFileSync('/proc/thread-self/schedstat', 'utf8'), 10) / 1e6;
  } catch {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  }
}
