import { type Rule, readOnRule } from './rule.ts';
import { MM_PER_INCH } from './unit.ts';

/** One graduation of a rule, mm. */
export const graduationMm = ({ unit, graduation: { numerator, denominator } }: Rule): number =>
  ((unit === 'in' ? MM_PER_INCH : 1) * numerator) / denominator;

/** A length as its nearest mark, with its unit: "12 11/32 in". For what nobody sets out to a hair. */
export const showNearest = (mm: number, rule: Rule): string => `${readOnRule(mm, rule).text} ${rule.unit}`;
