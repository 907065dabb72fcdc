import { Fault } from '../units/fault.ts';

/** What `read` makes of an option; a fault of it names the option. */
export function placed<T>(option: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof Fault ? error.at(option) : error;
  }
}
