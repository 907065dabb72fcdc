import type { ShowLength } from './fault.ts';
import { type Rule, readOnRule, showLength, showNearest } from './rule.ts';
import { MM_PER_INCH, type Unit, withUnit } from './unit.ts';

/** One graduation of a rule, mm. */
export const graduationMm = ({ unit, graduation: { numerator, denominator } }: Rule): number =>
  ((unit === 'in' ? MM_PER_INCH : 1) * numerator) / denominator;

/** The last graduation not past a length (mm, ≥ 0): for what must not be exceeded. */
export function floorToGraduation(mm: number, rule: Rule): number {
  const mark = graduationMm(rule);
  const nearest = Math.round(mm / mark);
  return mark * (mark * nearest > mm ? nearest - 1 : nearest);
}

/** "34 5/8\" × 3 3/4\" × 1 7/8\"", "880 × 95 × 48 mm": the known sizes to the nearest mark. */
export const showSizes = (sizes: readonly (number | undefined)[], rule: Rule): string =>
  withUnit(
    sizes
      .flatMap((mm) => (mm === undefined ? [] : readOnRule(mm, rule).text))
      .join(rule.unit === 'in' ? '" × ' : ' × '),
    rule.unit,
  );

export interface LengthFormat {
  /** With "full" or "scant": for what is cut to. */
  readonly exact: ShowLength;
  /** To the nearest mark: for radii and places. */
  readonly rounded: ShowLength;
  readonly unit: Unit;
}

/** Lengths as the terminal shows them. */
export const lengthFormat = (rule: Rule): LengthFormat => ({
  exact: (mm) => showLength(mm, rule),
  rounded: (mm) => showNearest(mm, rule),
  unit: rule.unit,
});
