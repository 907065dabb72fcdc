import { PlacedFault } from '../../job/job-faults.ts';
import { locate, type Place, type Places } from '../../job/source-positions.ts';
import { Fault, Faults, type ShowLength } from '../../units/fault.ts';
import { brief } from './truncate.ts';

/** What an error message needs of the job it speaks of. */
export interface Speaker {
  /** The file's name as the user gave it; absent for a quick line. */
  readonly file?: string;
  readonly places: Places;
  readonly length: ShowLength;
}

const NOWHERE: Places = new Map();

/** How to speak of what options ask for: no place of the job file is wrong, and which edge is meant its name says. */
export const ofOptions = (speaker: Speaker): Speaker => ({ ...speaker, places: NOWHERE });

/** Before the job's unit is known. */
export const plainSpeaker: Speaker = {
  places: NOWHERE,
  length: (mm) => `${Number(mm.toFixed(3))} mm`,
};

/** Faults of a job, ready to be told: file, place, and lengths in the job's unit. */
class JobTrouble extends Error {
  constructor(readonly lines: readonly string[]) {
    super(lines.join('\n'));
    this.name = 'JobTrouble';
  }
}

/** Runs work on a job; what is wrong with the job comes out as a JobTrouble. */
export function speakingOf<T>(speaker: Speaker, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw spokenOf(error, speaker);
  }
}

/** The same for work that waits, for a module to be loaded. */
export async function speakingLater<T>(speaker: Speaker, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw spokenOf(error, speaker);
  }
}

function spokenOf(error: unknown, speaker: Speaker): unknown {
  if (error instanceof Faults) return new JobTrouble(error.list.map((fault) => lineOf(fault, speaker)));
  if (error instanceof Fault) return new JobTrouble([lineOf(error, speaker)]);
  return error;
}

/** `FILE:LINE:COL: key: what is wrong. What would be right.` */
function lineOf(fault: Fault, { file, places, length }: Speaker): string {
  const place: Place | undefined =
    fault instanceof PlacedFault ? fault.place : locate(places, fault.key ?? '');
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
export function report(error: unknown): number {
  if (error instanceof JobTrouble) return tell(error.lines, 2);
  if (error instanceof Faults)
    return tell(
      error.list.map((fault) => `error: ${keyed(fault)}`),
      2,
    );
  if (error instanceof Fault) return tell([`error: ${keyed(error)}`], 2);
  const message = error instanceof Error ? error.message : String(error);
  return tell([`fairlath failed: ${message}`, 'This is a fault of the program, not of your job.'], 1);
}

const keyed = (fault: Fault): string => (fault.key ? `${fault.key}: ${fault.message}` : fault.message);

function tell(lines: readonly string[], code: number): number {
  for (const line of lines) console.error(brief(line));
  return code;
}
