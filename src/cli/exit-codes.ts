import { CommanderError } from 'commander';
import type { Fault } from '../units/fault.ts';
import { faultsOf } from '../units/fault.ts';

/** The exit codes of the program, as the help states them. */
export const EXIT_CODES = {
  /** The work is done. Warnings leave it so. */
  done: 0,
  /** fairlath failed. */
  failure: 1,
  /** The user's mistake: command line, job file, an input that cannot be read, an output in the way. */
  mistake: 2,
} as const;

export const EXIT_CODE_HELP = `${EXIT_CODES.done} done, ${EXIT_CODES.mistake} a mistake in what was given, ${EXIT_CODES.failure} a failure of the program`;

/** How a run ended: its exit code and, for the user's mistakes, the stable code and the place of each. */
export interface Outcome {
  readonly exitCode: number;
  readonly faults: readonly Pick<Fault, 'code' | 'key'>[];
}

/** The end of a run that threw. The parser throws for help as well. */
export function outcomeOf(error: unknown): Outcome {
  if (error instanceof CommanderError) {
    const { code, exitCode } = error;
    return exitCode === 0
      ? { exitCode: EXIT_CODES.done, faults: [] }
      : { exitCode: EXIT_CODES.mistake, faults: [{ code, key: undefined }] };
  }
  const faults = faultsOf(error).map(({ code, key }) => ({ code, key }));
  return { exitCode: faults.length > 0 ? EXIT_CODES.mistake : EXIT_CODES.failure, faults };
}
