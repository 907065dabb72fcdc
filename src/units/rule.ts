import type { Unit } from './unit.ts';

/** A maker's rule: its unit and its finest graduation, a fraction of that unit. */
export interface Rule {
  readonly unit: Unit;
  readonly graduation: Graduation;
}

/** A fraction in lowest terms: 1/32 of an inch, 1/2 of a millimetre. Both whole, both > 0. */
export interface Graduation {
  readonly numerator: number;
  readonly denominator: number;
}
