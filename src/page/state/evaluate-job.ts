import { type Figures, figuresOf } from '../../curves/measurements.ts';
import type { Job } from '../../job/job.ts';
import { PlacedFault } from '../../job/job-faults.ts';
import { parseJob } from '../../job/parse/parse-job.ts';
import { findPosition, type SourcePosition, type SourcePositions } from '../../job/source-positions.ts';
import { type Grip, gripsOf } from '../../part/edit/draggable-points.ts';
import { makePart } from '../../part/make-part.ts';
import type { Part } from '../../part/part.ts';
import { Fault, Faults, type ShowLength } from '../../units/fault.ts';

/** A job that makes a part, worked out as far as every frame needs it. */
export interface EvaluatedJob {
  readonly text: string;
  readonly part: Part;
  readonly positions: SourcePositions;
  readonly handles: readonly Grip[];
  /** Of every run of every edge, in the part's order. */
  readonly figures: readonly (readonly Figures[])[];
}

/** A mistake of the job, ready to be told. */
export interface JobDiagnostic {
  readonly code: string;
  readonly key: string;
  readonly position: SourcePosition | undefined;
  readonly message: (length: ShowLength) => string;
}

/** What has come of a job's text: a part, or everything that is wrong with it. */
export type Evaluation =
  | { readonly evaluated: EvaluatedJob; readonly faults: readonly [] }
  | { readonly evaluated?: never; readonly faults: readonly JobDiagnostic[] };

/** The part, figures, warnings and faults of a job text. */
export function evaluateJob(text: string): Evaluation {
  let places: SourcePositions = new Map();
  try {
    const parsed = parseJob(text);
    places = parsed.places;
    return { evaluated: evaluateParsed(text, parsed.job, places), faults: [] };
  } catch (error) {
    if (!(error instanceof Fault || error instanceof Faults)) return { faults: [bugDiagnostic(error)] };
    return { faults: faultsOf(error).map((fault) => toDiagnostic(fault, places)) };
  }
}

function evaluateParsed(text: string, job: Job, positions: SourcePositions): EvaluatedJob {
  const part = makePart(job);
  const figures = part.edges.map(({ runs }) => runs.map(figuresOf));
  return { text, part, positions, handles: gripsOf(part), figures };
}

/** What the user got wrong; anything else is a failure of ours and is passed on. */
export function faultsOf(error: unknown): readonly Fault[] {
  if (error instanceof Faults) return error.list;
  if (error instanceof Fault) return [error];
  throw error;
}

/** A failure of ours must not take the page down with it: the last part stays, and the maker is told. */
const bugDiagnostic = (error: unknown): JobDiagnostic => ({
  code: 'page.failed',
  key: '',
  position: undefined,
  message: () =>
    `this is a fault of the program, not of your job: ${error instanceof Error ? error.message : String(error)}`,
});

/** A mistake as it is told: with the line it stands in, if it stands in any. */
export const messageWithLine = (fault: Fault, length: ShowLength): string =>
  `${fault instanceof PlacedFault ? `line ${fault.place.line}: ` : ''}${fault.messageIn(length)}`;

/** A mistake with its place in the job. */
export const toDiagnostic = (fault: Fault, places: SourcePositions): JobDiagnostic => ({
  code: fault.code,
  key: fault.key ?? '',
  position: fault instanceof PlacedFault ? fault.place : findPosition(places, fault.key ?? ''),
  message: (length) => fault.messageIn(length),
});
