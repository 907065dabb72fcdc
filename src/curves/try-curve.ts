import { faultsOf } from '../units/fault.ts';

/** Some points have no curve, and some readings no check, without anything being wrong. */
export function undefinedOnFault<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch (error) {
    if (faultsOf(error).length > 0) return undefined;
    throw error;
  }
}
