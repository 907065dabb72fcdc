import { Fault } from '../units/fault.ts';

/** A curve may not exist for some points; then there is none, and nothing is wrong. */
export function ifItExists<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch (error) {
    if (error instanceof Fault) return undefined;
    throw error;
  }
}
