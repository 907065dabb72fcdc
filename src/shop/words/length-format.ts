import type { ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';

/** How lengths read in a sentence, on the maker's rule. */
export interface LengthFormat {
  /** With "full" or "shy": what is cut to. */
  readonly exact: ShowLength;
  /** To the nearest mark: radii, and where things stand. */
  readonly rounded: ShowLength;
  readonly unit: Unit;
}
