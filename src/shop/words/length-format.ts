import type { ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';

/** How lengths stand in the words of a sawing: on the maker's rule, and the unit they are in. */
export interface LengthWords {
  /** To a hair: what is cut to. */
  readonly length: ShowLength;
  /** To the nearest mark: radii, and where things stand. */
  readonly about: ShowLength;
  readonly unit: Unit;
}
