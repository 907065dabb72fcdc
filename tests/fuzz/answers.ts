import { expect } from 'vitest';
import { Fault, Faults } from '../../src/units/fault.ts';

/** An answer takes a fiftieth of a second, and hangs after two, ms. */
export const SOON_MS = 2000;

/** What was wrong; empty where the work was done. Anything but a Fault is passed on: a failure of ours. */
export function faultsOf(work: () => void): readonly Fault[] {
  const started = performance.now();
  const used = process.cpuUsage();
  try {
    work();
    return [];
  } catch (error) {
    if (error instanceof Faults) return error.list;
    if (error instanceof Fault) return [error];
    throw error;
  } finally {
    // On a busy machine the clock runs on while nothing is done; the processor's time counts the other tests' work.
    const { user, system } = process.cpuUsage(used);
    expect(Math.min(performance.now() - started, (user + system) / 1000)).toBeLessThan(SOON_MS);
  }
}

/** A message says what is wrong and what would be right: two sentences, and no inner workings. */
export function expectHelpful({ code, message }: Fault): void {
  expect(code).toMatch(/^[a-z]+(-[a-z]+)*\.[a-z]+(-[a-z]+)*$/);
  expect(message).toMatch(/[.?] .*\.$/s);
  // What the user wrote is quoted as it is.
  const ours = message.replaceAll(/"[^"]*"/g, '');
  expect(ours).not.toMatch(/NaN|undefined|Infinity|\[object|\bat .*\.[jt]s:/);
  expect(message.length).toBeLessThan(2000);
}

/** Every number in plain data is one. */
export function expectFinite(data: unknown): void {
  JSON.stringify(data, (key, value: unknown) => {
    if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${key} is ${value}`);
    return value;
  });
}
