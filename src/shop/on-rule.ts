import type { Rule } from '../units/rule.ts';
import { MM_PER_INCH } from '../units/unit.ts';

/** The length of one graduation, mm. */
export const oneMark = ({ unit, graduation: { numerator, denominator } }: Rule): number =>
  ((unit === 'in' ? MM_PER_INCH : 1) * numerator) / denominator;

/** The last graduation not past a length (mm, ≥ 0): for what must not be exceeded. Never up, not by a rounding. */
export function downOnRule(mm: number, rule: Rule): number {
  const mark = oneMark(rule);
  const nearest = Math.round(mm / mark);
  return mark * (mark * nearest > mm ? nearest - 1 : nearest);
}
