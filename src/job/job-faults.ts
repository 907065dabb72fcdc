import { Fault, Faults } from '../units/fault.ts';
import { findPosition, type SourcePosition, type SourcePositions } from './source-positions.ts';

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
