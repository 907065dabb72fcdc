import { Fault, Faults } from '../units/fault.ts';
import type { Rule } from '../units/rule.ts';

/** Both counted from 1. */
export type SourcePosition = { readonly line: number; readonly column: number };

/** By key (`edges.back[1].apex`; '' is the file): of a value on one line its start, of one over several lines its name. */
export type SourcePositions = ReadonlyMap<string, SourcePosition>;

/** The place of a key, or of the nearest key around it: a missing key has no place. */
export function findPosition(places: SourcePositions, key: string): SourcePosition | undefined {
  const parent = key.slice(0, Math.max(0, key.lastIndexOf('.'), key.lastIndexOf('[')));
  return places.get(key) ?? (key === '' ? undefined : findPosition(places, parent));
}

export class PlacedFault extends Fault {
  constructor(
    fault: Fault,
    readonly place: SourcePosition,
  ) {
    super(fault.code, (length) => fault.messageIn(length), fault.key);
  }
}

export const faultPosition = (fault: Fault, positions: SourcePositions): SourcePosition | undefined =>
  fault instanceof PlacedFault ? fault.place : findPosition(positions, fault.key ?? '');

export interface FoundJob {
  /** As `parseJob` reads it, without what could not be read. */
  readonly job: { readonly rule?: Rule | undefined };
  readonly places: SourcePositions;
}

/** Every mistake of a job file, each once, in the order of the file. */
export class JobFaults extends Faults {
  declare readonly list: readonly [PlacedFault, ...PlacedFault[]];

  constructor(
    list: readonly [PlacedFault, ...PlacedFault[]],
    /** What of the job could be read all the same. */
    readonly found?: FoundJob,
  ) {
    const [first = list[0], ...rest] = list.toSorted(
      ({ place: a }, { place: b }) => a.line - b.line || a.column - b.column,
    );
    super([first, ...rest]);
    this.name = 'JobFaults';
  }
}

export class Diagnostics {
  readonly positions = new Map<string, SourcePosition>([['', { line: 1, column: 1 }]]);
  private readonly faults: PlacedFault[] = [];

  report(fault: Fault, place: SourcePosition): undefined {
    this.faults.push(new PlacedFault(fault, place));
  }

  throwIfAny(job?: FoundJob['job']): void {
    const [first, ...rest] = this.faults;
    if (first) throw new JobFaults([first, ...rest], job && { job, places: this.positions });
  }
}
