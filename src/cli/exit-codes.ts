import { CommanderError } from 'commander';
import { type Fault, faultsOf } from '../units/fault.ts';

export const EXIT_CODES = { done: 0, failure: 1, mistake: 2 } as const;

export const EXIT_CODE_HELP = `${EXIT_CODES.done} done, ${EXIT_CODES.mistake} a mistake in what you gave, ${EXIT_CODES.failure} a bug in fairlath`;

export interface Outcome {
  readonly exitCode: number;
  readonly faults: readonly Pick<Fault, 'code' | 'key'>[];
}

/** The result of a run that threw. The parser throws to show help, too. */
export function outcomeOf(error: unknown): Outcome {
  if (error instanceof CommanderError && error.exitCode === 0)
    return { exitCode: EXIT_CODES.done, faults: [] };
  if (error instanceof CommanderError)
    return { exitCode: EXIT_CODES.mistake, faults: [{ code: error.code, key: undefined }] };
  const faults = faultsOf(error).map(({ code, key }) => ({ code, key }));
  return { exitCode: faults.length > 0 ? EXIT_CODES.mistake : EXIT_CODES.failure, faults };
}
