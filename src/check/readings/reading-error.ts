import { graduationMm } from '../../units/graduation.ts';
import type { Rule } from '../../units/rule.ts';

/**
 * What the hand adds to the rule's own error, mm (standard deviation): the rule a hair off square or off its
 * mark, the eye beside it. About the width of a pencil line.
 */
export const HAND_SIGMA_MM = 0.25;

/** The most a length read to the nearest graduation can be off, mm. */
export const maxReadingError = (rule: Rule): number => graduationMm(rule) / 2;

/**
 * Standard deviation of one reading, mm: rounding to a graduation g leaves an error spread evenly over ±g/2,
 * whose standard deviation is g/√12; the hand's error comes on top.
 */
export const readingSigma = (rule: Rule): number =>
  Math.hypot(graduationMm(rule) / Math.sqrt(12), HAND_SIGMA_MM);
