import { PlacedFault } from '../../job/job-faults.ts';
import { findPosition, type SourcePosition, type SourcePositions } from '../../job/source-positions.ts';
import { Fault, Faults, type ShowLength } from '../../units/fault.ts';
import { showMillimeters } from '../../units/number-format.ts';
import { truncate } from './truncate.ts';

/** What an error message needs of the job it speaks of. */
export interface FaultContext {
  /** The file's name as the user gave it; absent for a quick line. */
  readonly file?: string;
  readonly positions: SourcePositions;
  readonly length: ShowLength;
}

const NO_POSITIONS: SourcePositions = new Map();

/** How to speak of what options ask for: no place of the job file is wrong, and which edge is meant its name says. */
export const optionContext = (context: FaultContext): FaultContext => ({
  ...context,
  positions: NO_POSITIONS,
});

/** Before the job's unit is known. */
export const plainContext: FaultContext = {
  positions: NO_POSITIONS,
  length: showMillimeters,
};

/** Faults of a job, ready to be told: file, place, and lengths in the job's unit. */
class ExplainedFaults extends Error {
  constructor(readonly lines: readonly string[]) {
    super(lines.join('\n'));
    this.name = 'JobTrouble';
  }
}

/** Runs work on a job; what is wrong with the job comes out as a JobTrouble. */
export function withFaultContext<T>(context: FaultContext, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw explainFault(error, context);
  }
}

/** The same for work that waits, for a module to be loaded. */
export async function withFaultContextAsync<T>(context: FaultContext, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw explainFault(error, context);
  }
}

function explainFault(error: unknown, context: FaultContext): unknown {
  if (error instanceof Faults)
    return new ExplainedFaults(error.list.map((fault) => formatFault(fault, context)));
  if (error instanceof Fault) return new ExplainedFaults([formatFault(error, context)]);
  return error;
}

/** `FILE:LINE:COL: key: what is wrong. What would be right.` */
function formatFault(fault: Fault, { file, positions, length }: FaultContext): string {
  const place: SourcePosition | undefined =
    fault instanceof PlacedFault ? fault.place : findPosition(positions, fault.key ?? '');
  // An option's mistake stands on the command line, not in the file.
  const inFile = file !== undefined && !fault.key?.startsWith('--');
  const where = !inFile ? 'error' : place ? `${file}:${place.line}:${place.column}` : file;
  const key = fault.key ? `${fault.key}: ` : '';
  return `${where}: ${key}${fault.messageIn(length)}`;
}

/**
 * Tells what stopped the work and gives the exit code: 2 the user's mistake, 1 our failure.
 * Never a stack trace; for our own failure the message, and what to do with it.
 */
export function reportError(error: unknown): number {
  if (error instanceof ExplainedFaults) return printErrors(error.lines, 2);
  if (error instanceof Faults)
    return printErrors(
      error.list.map((fault) => `error: ${keyAndMessage(fault)}`),
      2,
    );
  if (error instanceof Fault) return printErrors([`error: ${keyAndMessage(error)}`], 2);
  const message = error instanceof Error ? error.message : String(error);
  return printErrors([`fairlath failed: ${message}`, 'This is a fault of the program, not of your job.'], 1);
}

const keyAndMessage = (fault: Fault): string =>
  fault.key ? `${fault.key}: ${fault.message}` : fault.message;

function printErrors(lines: readonly string[], code: number): number {
  for (const line of lines) console.error(truncate(line));
  return code;
}
