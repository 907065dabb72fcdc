import { findUnit } from '../../units/length-unit.ts';
import type { Unit } from '../../units/unit.ts';
import { didYouMean } from './did-you-mean.ts';

/** The units a job can be in, as they are written. */
export const JOB_UNITS: readonly Unit[] = ['in', 'mm'];

/** The cure for a unit that a job cannot be in: "cm" is no slip for "mm", which would make the part ten times too small. */
export function suggestUnit(typed: string): string {
  const unit = findUnit(typed.trim().toLowerCase());
  if (unit === undefined) return didYouMean(typed, JOB_UNITS);
  if (unit === 'in' || unit === 'mm') return `Write ${unit}.`;
  return `A job is in inches (in) or millimetres (mm). Write one of them, and each length with its own unit, as 2 ${unit}.`;
}
