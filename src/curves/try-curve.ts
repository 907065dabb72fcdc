import { faultsOf } from '../units/fault.ts';

/** A curve may not exist for some points, nor a check of some readings; then there is none, and nothing is wrong. */
export function undefinedOnFault<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch (error) {
    if (faultsOf(error).length > 0) return undefined;
    throw error;
  }
}
