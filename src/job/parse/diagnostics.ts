import type { Fault } from '../../units/fault.ts';
import { JobFaults, PlacedFault } from '../job-faults.ts';
import type { Place } from '../source-positions.ts';

/** What has come to light while one job file is read: where its keys stand, and its mistakes. */
export class Findings {
  readonly places = new Map<string, Place>([['', { line: 1, column: 1 }]]);
  private readonly faults: PlacedFault[] = [];

  report(fault: Fault, place: Place): undefined {
    this.faults.push(new PlacedFault(fault, place));
  }

  /** @throws JobFaults if anything was reported */
  throwAny(): void {
    const [first, ...rest] = this.faults.toSorted(inFileOrder);
    if (first) throw new JobFaults([first, ...rest]);
  }
}

const inFileOrder = (a: PlacedFault, b: PlacedFault): number =>
  a.place.line - b.place.line || a.place.column - b.place.column;
