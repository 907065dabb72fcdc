import { showMillimeters } from './number-format.ts';

/** Shows a length (mm) in the reader's unit: "12 11/32 in", "730 mm". */
export type ShowLength = (mm: number) => string;

/** A sentence or two, with its lengths left open until the reader's unit is known. */
export type Wording = string | ((length: ShowLength) => string);

const formatWording = (wording: Wording, length: ShowLength): string =>
  typeof wording === 'string' ? wording : wording(length);

/** A mistake in what the user gave. The message says what is wrong and then what to do. */
export class Fault extends Error {
  constructor(
    /** Stable, for programs to match: "length.ambiguous". */
    readonly code: string,
    private readonly wording: Wording,
    /** The place in the job file ("edges.back[1].apex") or the option, where one is known. */
    readonly key?: string,
  ) {
    super(formatWording(wording, showMillimeters));
    this.name = 'Fault';
  }

  /** The message with its lengths as `length` shows them. */
  messageIn(length: ShowLength): string {
    return formatWording(this.wording, length);
  }

  /** The same mistake, placed at a key of the job file; a place already known is kept. */
  at(key: string): Fault {
    return this.key === undefined ? new Fault(this.code, this.wording, key) : this;
  }
}

/** More are only counted: nobody reads further before these are corrected. */
export const MAX_TOLD = 20;

/** Every mistake found in one go. Never empty. */
export class Faults extends Error {
  constructor(
    /** In the order they were found. */
    readonly list: readonly [Fault, ...Fault[]],
  ) {
    super(list.map((fault) => fault.message).join('\n'));
    this.name = 'Faults';
  }
}

export function throwFaults([first, ...rest]: readonly Fault[]): void {
  if (first) throw new Faults([first, ...rest]);
}

/** What `work` returns, or what `handle` makes of a Fault that it throws. */
export function catchFault<T, U>(work: () => T, handle: (fault: Fault) => U): T | U {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return handle(error);
  }
}

export function faultsOf(error: unknown): readonly Fault[] {
  if (error instanceof Faults) return error.list;
  return error instanceof Fault ? [error] : [];
}

/** The mistakes that `work` throws, if any; anything else that it throws goes on. */
export function collectFaults(work: () => void): readonly Fault[] {
  try {
    work();
    return [];
  } catch (error) {
    const faults = faultsOf(error);
    if (faults.length === 0) throw error;
    return faults;
  }
}

export const errorText = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Something the user should know that does not stop the work. */
export interface Warning {
  readonly code: string;
  readonly message: string;
  /** The place in the job file ("stock.species") of a value that has no effect. */
  readonly key?: string;
}

/** Those of some warnings that apply, in order. */
export const warningsThatApply = (
  warnings: readonly (readonly [applies: boolean, code: string, message: string])[],
): Warning[] => warnings.filter(([applies]) => applies).map(([, code, message]) => ({ code, message }));
