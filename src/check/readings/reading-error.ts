import { graduationMm } from '../../units/graduation.ts';
import type { Rule } from '../../units/rule.ts';

/** Standard deviation that the hand adds, mm: about the width of a pencil line. */
export const HAND_SIGMA_MM = 0.25;

export const maxReadingError = (rule: Rule): number => graduationMm(rule) / 2;

/** Standard deviation of one reading, mm. Rounding to a graduation g spreads the error evenly over ±g/2, which is g/√12. */
export const readingSigma = (rule: Rule): number =>
  Math.hypot(graduationMm(rule) / Math.sqrt(12), HAND_SIGMA_MM);
