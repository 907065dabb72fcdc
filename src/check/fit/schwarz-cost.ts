import { sumOfSquares } from './rigid-fit.ts';

/*
 * Which model lies behind some readings, and which of them are wrong, decided together: the model and the set of wrong
 * readings of least cost win. A wrong reading has its own unknown error ("mean shift"), so that it costs what an unknown
 * costs and the choice among all readings. Sources: Schwarz, "Estimating the dimension of a model", Annals of Statistics 6,
 * 1978; Cook & Weisberg, "Residuals and Influence in Regression", 1982, §2.2 (leaving one out, mean shift).
 */

/**
 * The cost of calling a reading wrong. A good one saves as much by chance where it errs by four standard deviations: once
 * in sixteen thousand readings.
 */
export const WRONG_READING_COST = 16;

/** The hand may err this many times as much as is taken for it; what is farther off is no error of the hand. */
const MAX_SPREAD = 2;

/** More wrong readings than this share, and all of them are doubtful. */
const MAX_WRONG_SHARE = 0.2;

/** Readings beyond the unknowns of the model: with fewer nothing contradicts the rest. */
const MIN_SPARE = 2;

/** How many of some readings may be called wrong beside a model with some unknowns. */
export const maxWrong = (readings: number, unknowns: number): number =>
  Math.max(0, Math.min(Math.max(1, Math.floor(readings * MAX_WRONG_SHARE)), readings - unknowns - MIN_SPARE));

/**
 * −2·ln(likelihood) of the residuals of the good readings, with what they spread by taken from themselves between sigma
 * and MAX_SPREAD·sigma.
 */
export function misfitCost(residuals: readonly number[], sigma: number): number {
  const sum = sumOfSquares(residuals) / sigma ** 2;
  const spread = Math.min(Math.max(sum / residuals.length, 1), MAX_SPREAD ** 2);
  return sum / spread + residuals.length * Math.log(spread);
}
