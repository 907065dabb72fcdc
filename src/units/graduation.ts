import type { ShowLength } from './fault.ts';
import { type Rule, readOnRule, showLength } from './rule.ts';
import { MM_PER_INCH, type Unit } from './unit.ts';

/** One graduation of a rule, mm. */
export const graduationMm = ({ unit, graduation: { numerator, denominator } }: Rule): number =>
  ((unit === 'in' ? MM_PER_INCH : 1) * numerator) / denominator;

/** The last graduation not past a length (mm, ≥ 0): for what must not be exceeded. Rounding never lifts it. */
export function floorToGraduation(mm: number, rule: Rule): number {
  const mark = graduationMm(rule);
  const nearest = Math.round(mm / mark);
  return mark * (mark * nearest > mm ? nearest - 1 : nearest);
}

/** A length as its nearest mark, with its unit: "12 11/32 in". For what nobody sets out to a hair. */
export const showNearest = (mm: number, rule: Rule): string => `${readOnRule(mm, rule).text} ${rule.unit}`;

/** "34 5/8 × 3 3/4 × 1 7/8 in": sizes to the nearest mark, those that are not known left out. */
export const showSizes = (sizes: readonly (number | undefined)[], rule: Rule): string =>
  `${sizes.flatMap((mm) => (mm === undefined ? [] : readOnRule(mm, rule).text)).join(' × ')} ${rule.unit}`;

/** How lengths read in a sentence, on the maker's rule. */
export interface LengthFormat {
  /** With "full" or "shy": what is cut to. */
  readonly exact: ShowLength;
  /** To the nearest mark: radii, and where things stand. */
  readonly rounded: ShowLength;
  readonly unit: Unit;
}

/** Lengths as the terminal shows them. */
export const lengthFormat = (rule: Rule): LengthFormat => ({
  exact: (mm) => showLength(mm, rule),
  rounded: (mm) => showNearest(mm, rule),
  unit: rule.unit,
});
