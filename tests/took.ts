/** An answer takes a fiftieth of a second, and hangs after two, ms. */
export const SOON_MS = 2000;

/**
 * What some work takes, ms. On a busy machine the clock runs on while nothing is done, and the processor's time counts
 * what other tests do meanwhile: the work took no longer than the less of the two.
 */
export function took(work: () => void): number {
  const started = performance.now();
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return Math.min(performance.now() - started, (user + system) / 1000);
}
