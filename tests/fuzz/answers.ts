import { expect } from 'vitest';
import { Fault, Faults } from '../../src/units/fault.ts';
import { SOON_MS, took } from '../took.ts';

/** What was wrong; empty where the work was done. Anything but a Fault is passed on: a failure of ours. */
export function faultsOf(work: () => void): readonly Fault[] {
  let faults: readonly Fault[] = [];
  const ms = took(() => {
    try {
      work();
    } catch (error) {
      if (error instanceof Faults) faults = error.list;
      else if (error instanceof Fault) faults = [error];
      else throw error;
    }
  });
  expect(ms).toBeLessThan(SOON_MS);
  return faults;
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
