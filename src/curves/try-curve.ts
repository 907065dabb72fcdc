import { Fault, Faults } from '../units/fault.ts';

/** A curve may not exist for some points, nor a check of some readings; then there is none, and nothing is wrong. */
export function undefinedOnFault<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch (error) {
    if (error instanceof Fault || error instanceof Faults) return undefined;
    throw error;
  }
}
