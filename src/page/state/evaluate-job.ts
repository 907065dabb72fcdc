import { type Figures, figuresOf } from '../../curves/measurements.ts';
import { PlacedFault, type SourcePosition, type SourcePositions } from '../../job/job-faults.ts';
import { type Grip, gripsOf } from '../../part/edit/draggable-points.ts';
import type { Part } from '../../part/part.ts';
import { readPart } from '../../part/read-part.ts';
import { withWrittenWarnings } from '../../shop/words/written-warnings.ts';
import { errorText, Fault, faultsOf, type ShowLength } from '../../units/fault.ts';

export interface EvaluatedJob {
  readonly text: string;
  readonly part: Part;
  readonly positions: SourcePositions;
  readonly handles: readonly Grip[];
  readonly figures: readonly (readonly Figures[])[];
}

export interface JobDiagnostic {
  readonly code: string;
  readonly key: string;
  readonly position: SourcePosition | undefined;
  readonly message: (length: ShowLength) => string;
}

export type Evaluation =
  | { readonly evaluated: EvaluatedJob; readonly faults: readonly [] }
  | { readonly evaluated?: never; readonly faults: readonly JobDiagnostic[] };

/** The part of a text, or all its mistakes. A bug is listed too, as the page must go on. */
export function evaluateJob(text: string): Evaluation {
  try {
    const { part: made, places: positions } = readPart(text);
    const part = withWrittenWarnings(made, positions);
    const figures = part.edges.map(({ runs }) => runs.map(figuresOf));
    return { evaluated: { text, part, positions, handles: gripsOf(part), figures }, faults: [] };
  } catch (error) {
    const bug = `This is a bug in fairlath, not a mistake in your job: ${errorText(error)}`;
    const faults = faultsOf(error);
    return { faults: (faults.length > 0 ? faults : [new Fault('page.failed', bug)]).map(toDiagnostic) };
  }
}

export function userFaults(error: unknown): readonly Fault[] {
  const faults = faultsOf(error);
  if (faults.length === 0) throw error;
  return faults;
}

export const messageWithLine = (fault: Fault, length: ShowLength): string =>
  `${fault instanceof PlacedFault ? `line ${fault.place.line}: ` : ''}${fault.messageIn(length)}`;

export const toDiagnostic = (fault: Fault): JobDiagnostic => ({
  code: fault.code,
  key: fault.key ?? '',
  position: fault instanceof PlacedFault ? fault.place : undefined,
  message: (length) => fault.messageIn(length),
});
