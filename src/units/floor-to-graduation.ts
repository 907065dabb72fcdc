import { graduationMm } from './graduation.ts';
import type { Rule } from './rule.ts';

/** The last graduation not past a length (mm, ≥ 0): for what must not be exceeded. Never up, not by a rounding. */
export function floorToGraduation(mm: number, rule: Rule): number {
  const mark = graduationMm(rule);
  const nearest = Math.round(mm / mark);
  return mark * (mark * nearest > mm ? nearest - 1 : nearest);
}
