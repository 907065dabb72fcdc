import type { ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';

/** How lengths stand in the words of a sawing: on the maker's rule, and the unit they are in. */
export interface LengthFormat {
  /** To a hair: what is cut to. */
  readonly exact: ShowLength;
  /** To the nearest mark: radii, and where things stand. */
  readonly rounded: ShowLength;
  readonly unit: Unit;
}
