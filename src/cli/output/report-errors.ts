import { faultPosition, JobFaults, type SourcePositions } from '../../job/job-faults.ts';
import { errorText, type Fault, Faults, faultsOf, MAX_TOLD, type ShowLength } from '../../units/fault.ts';
import { showMillimeters } from '../../units/number-format.ts';
import { showLength } from '../../units/rule.ts';

export interface FaultContext {
  readonly file?: string;
  /** Absent for mistakes that have no place in the file, such as those of options. */
  readonly positions?: SourcePositions;
  readonly length: ShowLength;
}

/** Before the job's unit is known. */
export const plainContext: FaultContext = { length: showMillimeters };

class ExplainedFaults extends Faults {
  constructor(
    list: readonly [Fault, ...Fault[]],
    readonly lines: readonly string[],
  ) {
    super(list);
    this.name = 'ExplainedFaults';
  }
}

export function withFaultContext<T>(context: FaultContext, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw explainFaults(error, context);
  }
}

/** The mistakes of an error with their places and lengths. A bug stays as it is. */
export function explainFaults(error: unknown, context: FaultContext): unknown {
  const [first, ...rest] = error instanceof ExplainedFaults ? [] : faultsOf(error);
  if (!first) return error;
  const rule = error instanceof JobFaults ? error.found?.job.rule : undefined;
  const inUnit = rule ? { ...context, length: (mm: number) => showLength(mm, rule) } : context;
  const lines = [first, ...rest].map((fault) => formatFault(fault, inUnit));
  return new ExplainedFaults([first, ...rest], lines);
}

/** `FILE:LINE:COL: key: what is wrong. What to do.` */
function formatFault(fault: Fault, { file, positions = new Map(), length }: FaultContext): string {
  const position = faultPosition(fault, positions);
  const inFile = file !== undefined && !isInCommandLine(fault);
  const where = !inFile ? 'error' : position ? `${file}:${position.line}:${position.column}` : file;
  return `${where}: ${withKey(fault, fault.messageIn(length))}`;
}

const isInCommandLine = ({ code, key }: Fault): boolean =>
  code.startsWith('command.') || key?.startsWith('--') === true;

const withKey = ({ key }: Fault, message: string): string => (key ? `${key}: ${message}` : message);

export function reportError(error: unknown): void {
  const lines = linesOf(error);
  for (const line of lines.slice(0, MAX_TOLD)) console.error(truncate(line));
  if (lines.length > MAX_TOLD) console.error(`and ${lines.length - MAX_TOLD} more`);
}

function linesOf(error: unknown): readonly string[] {
  if (error instanceof ExplainedFaults) return error.lines;
  const faults = faultsOf(error);
  if (faults.length > 0) return faults.map((fault) => `error: ${withKey(fault, fault.message)}`);
  return [`fairlath failed: ${errorText(error)}`, 'This is a bug in fairlath, not a mistake in your job.'];
}

/** Longer than any name, length or path that is typed on purpose. */
const MAX_ECHO_LETTERS = 300;
/** Enough to recognize what was typed. */
const KEPT_LETTERS = 60;

const cut = (text: string): string => `${[...text].slice(0, KEPT_LETTERS).join('')}…`;

/** Cuts long quotes and long words of a message short. */
export const truncate = (message: string): string =>
  message
    .replaceAll(/"[^"]*"/g, (quote) => (quote.length > MAX_ECHO_LETTERS ? `${cut(quote)}"` : quote))
    .replaceAll(/\S+/g, (word) => (word.length > MAX_ECHO_LETTERS ? cut(word) : word));
