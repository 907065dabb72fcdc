import { itemAt } from '../../units/checked.ts';
import type { Point } from '../geometry/point.ts';
import { normalShareBelow } from '../numeric/normal-distribution.ts';
import { rootBetween } from '../numeric/roots-and-minima.ts';
import { type LineModel, smoothLines } from './smooth-lines.ts';

/*
 * Each pin is left out in turn, and the line of the others says where it should be (Stone, "Cross-validatory choice and
 * assessment of statistical predictions", Journal of the Royal Statistical Society B 36, 1974). Under each model that
 * takes no new solution (Dubrule, "Cross validation of kriging in a unique neighborhood", Mathematical Geology 15,
 * 1983); models weigh by what the others say of them, so that no pin vouches for itself.
 */

/** How true a nail is set: what rounding to 1/64 in leaves, 0.115 mm, mm. */
const SET_MM = 0.1;
/** As far off as marks a sixteenth and an eighth of an inch apart leave nails, mm. */
const COARSE_MM = [0.4, 0.8] as const;
/** Coarsely set pins are so much likelier: ten times what Jeffreys calls decisive ("Theory of Probability", 1961, appendix B). */
const DECISIVE = Math.log(1000);
/** With fewer pins between the ends each bends the line as much as the rest, and none of them is odd. */
const MIN_INNER_PINS = 4;
/** A bump that is likelier than this is to be reckoned with. Tuned on tests/stress/verdicts/fairness-cases.ts. */
export const DOUBT_ODDS = 0.04;
/** Models this unlikely change no odds that are judged here. */
const NEGLIGIBLE = 1e-6;
/** No nail is farther off unseen than this, mm. */
const MAX_HIDDEN_MM = 1e4;

export interface LeftOutPin {
  readonly at: Point;
  /** How far it lies to the left of the line of the others, square off the chord, mm. */
  readonly off: number;
  /** The odds that it lies on that line or to its other side. */
  readonly wrongSide: number;
  /** The least bump that would show here, mm. */
  readonly leastBump: number;
}

/** Pins judged together: far ones tell nothing of each other, and the work grows with the cube of their number. */
const MAX_TOGETHER = 24;

/** Each pin between the ends, where there are enough of them. */
export function leaveOutPins(pins: readonly Point[]): LeftOutPin[] {
  if (pins.length < MIN_INNER_PINS + 2) return [];
  const stretches = overlappingStretches(pins);
  const models = stretches.map((stretch) => smoothLines(stretch)(SET_MM));
  return pins.slice(1, -1).map((at) => {
    const depths = stretches.map((stretch) =>
      Math.min(stretch.indexOf(at), stretch.length - 1 - stretch.indexOf(at)),
    );
    const best = depths.indexOf(Math.max(...depths));
    return leaveOut(itemAt(models, best), itemAt(stretches, best).indexOf(at), at);
  });
}

/** Each shares half of its pins with the next, so that every pin has neighbors on both sides in one of them. */
function overlappingStretches(pins: readonly Point[]): (readonly Point[])[] {
  const steps = Math.ceil(Math.max(0, pins.length - MAX_TOGETHER) / (MAX_TOGETHER / 2));
  return Array.from({ length: steps + 1 }, (_, i) => {
    const start = Math.round((i * Math.max(0, pins.length - MAX_TOGETHER)) / Math.max(1, steps));
    return pins.slice(start, start + MAX_TOGETHER);
  });
}

/** How far pins set out too coarsely lie off a smooth line, mm, at most; 0 where a smooth line runs through them all. */
export const coarseness = (pins: readonly Point[]): number =>
  pins.length < MIN_INNER_PINS + 2 ? 0 : Math.max(...overlappingStretches(pins).map(coarsenessTogether));

function coarsenessTogether(pins: readonly Point[]): number {
  const modelsAt = smoothLines(pins);
  let [worst, most] = [0, totalOf(modelsAt(SET_MM)) + DECISIVE];
  for (const error of COARSE_MM) {
    const models = modelsAt(error);
    const total = totalOf(models);
    if (total <= most) continue;
    most = total;
    const best = models.reduce((one, other) => (other.logLikelihood > one.logLikelihood ? other : one));
    worst = Math.max(...pins.map((_, k) => error ** 2 * Math.abs(best.at(k).weighted)));
  }
  return worst;
}

const totalOf = (models: readonly LineModel[]): number =>
  logSum(models.map(({ logLikelihood }) => logLikelihood));

function leaveOut(models: readonly LineModel[], k: number, at: Point): LeftOutPin {
  const guesses = guessesOf(models, k);
  const sum = (value: (guess: Guess) => number): number =>
    guesses.reduce((total, guess) => total + guess.weight * value(guess), 0);
  const below = sum(({ off, spread }) => normalShareBelow(-off / spread));
  const beyond = (bump: number): number =>
    sum(
      ({ off, spread }) => normalShareBelow((off - bump) / spread) + normalShareBelow((-off - bump) / spread),
    );
  return {
    at,
    off: sum(({ off }) => off),
    wrongSide: Math.min(below, 1 - below),
    leastBump: rootBetween((bump) => beyond(bump) - DOUBT_ODDS, 0, MAX_HIDDEN_MM) ?? MAX_HIDDEN_MM,
  };
}

interface Guess {
  readonly weight: number;
  readonly off: number;
  /** Standard deviation, mm. */
  readonly spread: number;
}

/** How far pin k is off the line of the others under each model that they make likely. */
function guessesOf(models: readonly LineModel[], k: number): Guess[] {
  const guesses = models.map(({ shares, logLikelihood, at }) => {
    const { weighted, precision } = at(k);
    const share = itemAt(shares, k);
    return {
      logWeight: logLikelihood - Math.log(precision) / 2 + weighted ** 2 / precision / 2,
      off: weighted / precision / share,
      spread: 1 / Math.sqrt(precision) / share,
    };
  });
  const all = logSum(guesses.map(({ logWeight }) => logWeight));
  return guesses
    .map(({ logWeight, off, spread }) => ({ weight: Math.exp(logWeight - all), off, spread }))
    .filter(({ weight }) => weight > NEGLIGIBLE);
}

/** log Σ exp of the logarithms, without overflow. */
function logSum(logs: readonly number[]): number {
  const most = Math.max(...logs);
  return most + Math.log(logs.reduce((sum, each) => sum + Math.exp(each - most), 0));
}
