import { type Figures, figuresOf } from '../../curves/measurements.ts';
import type { Job } from '../../job/job.ts';
import { PlacedFault } from '../../job/job-faults.ts';
import { parseJob } from '../../job/parse/parse-job.ts';
import { locate, type Place, type Places } from '../../job/source-positions.ts';
import { type Grip, gripsOf } from '../../part/edit/draggable-points.ts';
import { makePart } from '../../part/make-part.ts';
import type { Part } from '../../part/part.ts';
import { Fault, Faults, type ShowLength } from '../../units/fault.ts';

/** A job that makes a part, worked out as far as every frame needs it. */
export interface Made {
  readonly text: string;
  readonly part: Part;
  readonly places: Places;
  readonly grips: readonly Grip[];
  /** Of every run of every edge, in the part's order. */
  readonly figures: readonly (readonly Figures[])[];
}

/** A mistake of the job, ready to be told. */
export interface Told {
  readonly code: string;
  readonly key: string;
  readonly place: Place | undefined;
  readonly message: (length: ShowLength) => string;
}

/** What has come of a job's text: a part, or everything that is wrong with it. */
export type Worked =
  | { readonly made: Made; readonly faults: readonly [] }
  | { readonly made?: never; readonly faults: readonly Told[] };

export function workOut(text: string): Worked {
  let places: Places = new Map();
  try {
    const parsed = parseJob(text);
    places = parsed.places;
    return { made: madeOf(text, parsed.job, places), faults: [] };
  } catch (error) {
    if (!(error instanceof Fault || error instanceof Faults)) return { faults: [ownFailure(error)] };
    return { faults: faultsIn(error).map((fault) => told(fault, places)) };
  }
}

function madeOf(text: string, job: Job, places: Places): Made {
  const part = makePart(job);
  const figures = part.edges.map(({ runs }) => runs.map(figuresOf));
  return { text, part, places, grips: gripsOf(part), figures };
}

/** What the user got wrong; anything else is a failure of ours and is passed on. */
export function faultsIn(error: unknown): readonly Fault[] {
  if (error instanceof Faults) return error.list;
  if (error instanceof Fault) return [error];
  throw error;
}

/** A failure of ours must not take the page down with it: the last part stays, and the maker is told. */
const ownFailure = (error: unknown): Told => ({
  code: 'page.failed',
  key: '',
  place: undefined,
  message: () =>
    `this is a fault of the program, not of your job: ${error instanceof Error ? error.message : String(error)}`,
});

/** A mistake as it is told: with the line it stands in, if it stands in any. */
export const inLine = (fault: Fault, length: ShowLength): string =>
  `${fault instanceof PlacedFault ? `line ${fault.place.line}: ` : ''}${fault.messageIn(length)}`;

/** A mistake with its place in the job. */
export const told = (fault: Fault, places: Places): Told => ({
  code: fault.code,
  key: fault.key ?? '',
  place: fault instanceof PlacedFault ? fault.place : locate(places, fault.key ?? ''),
  message: (length) => fault.messageIn(length),
});
