import type { Fault } from '../../units/fault.ts';
import { JobFaults, PlacedFault } from '../job-faults.ts';
import type { SourcePosition } from '../source-positions.ts';

/** What is found while one job file is read: the positions of its keys, and its mistakes. */
export class Diagnostics {
  readonly positions = new Map<string, SourcePosition>([['', { line: 1, column: 1 }]]);
  private readonly faults: PlacedFault[] = [];

  report(fault: Fault, place: SourcePosition): undefined {
    this.faults.push(new PlacedFault(fault, place));
  }

  /** @throws JobFaults if anything was reported */
  throwIfAny(): void {
    const [first, ...rest] = this.faults.toSorted(comparePositions);
    if (first) throw new JobFaults([first, ...rest]);
  }
}

const comparePositions = (a: PlacedFault, b: PlacedFault): number =>
  a.place.line - b.place.line || a.place.column - b.place.column;
