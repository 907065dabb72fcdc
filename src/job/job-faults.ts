import { Fault, Faults } from '../units/fault.ts';

/** A place in the job file, both counted from 1. */
export interface SourcePosition {
  readonly line: number;
  readonly column: number;
}

/**
 * The position of each key of a job file: `edges.back[1].apex`, `stock.width`; the file itself is ''.
 * A value on one line is placed at its start, one over several lines at its name.
 */
export type SourcePositions = ReadonlyMap<string, SourcePosition>;

/** The place of a key, or of the nearest key around it: a missing key has no place. */
export function findPosition(places: SourcePositions, key: string): SourcePosition | undefined {
  const parent = key.slice(0, Math.max(0, key.lastIndexOf('.'), key.lastIndexOf('[')));
  return places.get(key) ?? (key === '' ? undefined : findPosition(places, parent));
}

/** A mistake in the job file, with the line and column where it stands. */
export class PlacedFault extends Fault {
  constructor(
    fault: Fault,
    readonly place: SourcePosition,
  ) {
    super(fault.code, (length) => fault.messageIn(length), fault.key);
  }
}

/** Undefined where a mistake has no place in the job file. */
export const faultPosition = (fault: Fault, positions: SourcePositions): SourcePosition | undefined =>
  fault instanceof PlacedFault ? fault.place : findPosition(positions, fault.key ?? '');

/** Every mistake of a job file, each once, in the order of the file. */
export class JobFaults extends Faults {
  declare readonly list: readonly [PlacedFault, ...PlacedFault[]];

  constructor(list: readonly [PlacedFault, ...PlacedFault[]]) {
    super(list);
    this.name = 'JobFaults';
  }
}

/** What is found while one job file is read: the positions of its keys, and its mistakes. */
export class Diagnostics {
  readonly positions = new Map<string, SourcePosition>([['', { line: 1, column: 1 }]]);
  private readonly faults: PlacedFault[] = [];

  report(fault: Fault, place: SourcePosition): undefined {
    this.faults.push(new PlacedFault(fault, place));
  }

  /** @throws JobFaults if anything was reported */
  throwIfAny(): void {
    const [first, ...rest] = this.faults.toSorted(
      ({ place: a }, { place: b }) => a.line - b.line || a.column - b.column,
    );
    if (first) throw new JobFaults([first, ...rest]);
  }
}
