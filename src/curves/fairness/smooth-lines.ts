import { itemAt, lastOf } from '../../units/checked.ts';
import type { Point } from '../geometry/point.ts';
import { cholesky, forwardSubstitute } from '../numeric/linear-algebra.ts';
import { type PinHeights, pinFrames } from './smooth-line-frames.ts';

/*
 * What smooth lines look like before any pin is known, as in kriging: heights over a base line are a parabola and what
 * departs from it, normally spread, alike at near places (Matheron, "The intrinsic random functions and their
 * applications", Advances in Applied Probability 5, 1973). How far it departs and over which length it swells is not
 * known. Each pair of these is a model, and the pins weigh them all.
 */

/** How alike the heights at places r swells apart are; exp(−r²/2) where all changes evenly. */
const even = (r: number): number => Math.exp(-(r ** 2) / 2);
/**
 * Where the rate of the curvature jumps, as at a nail of a batten: Matérn's of order 7/2, whose lines have no fourth
 * derivative (Rasmussen & Williams, "Gaussian Processes for Machine Learning", 2006, eq. 4.14).
 */
function kinked(r: number): number {
  const z = Math.sqrt(7) * r;
  return (1 + z + (2 * z ** 2) / 5 + z ** 3 / 15) * Math.exp(-z);
}

/** Over which share of the line it swells. A shorter swell is a bump; a longer one tells no more than the longest here. */
const SWELLS = [
  [0.4, even],
  [0.8, even],
  [1.6, even],
  [0.5, kinked],
  [1.5, kinked],
] as const;
/** By how much, mm, from below a pencil line to a half circle of 1 m, each 4.6 times the last. */
const SWELL_MM = [0.05, 0.23, 1.1, 5, 23, 108, 500] as const;

/** What three pins cannot tell from a parabola says nothing: third differences are free of it. */
const ORDER = 3;

type Matrix = readonly (readonly number[])[];

/** One kind of smooth line. With K the covariance of the heights, P is its inverse less what a parabola explains. */
export interface LineModel {
  readonly shares: PinHeights['shares'];
  /** The logarithm of how likely the pins are. */
  readonly logLikelihood: number;
  /** At pin k: (P·heights)ₖ and Pₖₖ. */
  readonly at: (k: number) => { readonly weighted: number; readonly precision: number };
}

/** The smooth lines that the pins may lie on, each of them off it by about `errorMm`. */
export function smoothLines(pins: readonly Point[]): (errorMm: number) => LineModel[] {
  const frames = pinFrames(pins).map((frame) => {
    const contrasts = frame.along.slice(ORDER).map((_, i) => contrastRow(frame.along, i));
    const noise = productOf(contrasts, (i, j) => (i === j ? 1 : 0));
    const likenesses = SWELLS.map(([share, likeness]) => {
      const length = share * (lastOf(frame.along) - itemAt(frame.along, 0));
      const alike = frame.along.map((a) => frame.along.map((b) => likeness(Math.abs(a - b) / length)));
      return productOf(contrasts, (i, j) => itemAt(itemAt(alike, i), j));
    });
    return { frame, contrasts, noise, likenesses, unit: logDeterminant(cholesky(noise) ?? []) };
  });
  return (errorMm) =>
    frames.flatMap(({ frame, contrasts, noise, likenesses, unit }) =>
      likenesses.flatMap((likeness) =>
        SWELL_MM.flatMap((swell) => {
          const lower = cholesky(weightedSum(swell ** 2, likeness, errorMm ** 2, noise));
          return lower ? [modelFrom(lower, contrasts, frame, unit)] : [];
        }),
      ),
    );
}

function modelFrom(lower: Matrix, contrasts: Matrix, frame: PinHeights, unit: number): LineModel {
  const solve = (value: (row: readonly number[]) => number): number[] =>
    forwardSubstitute(lower, contrasts.map(value));
  const free = solve((row) => dotProduct(row, frame.heights));
  return {
    shares: frame.shares,
    logLikelihood: (unit - logDeterminant(lower) - dotProduct(free, free)) / 2,
    at: (k) => {
      const column = solve((row) => itemAt(row, k));
      return { weighted: dotProduct(column, free), precision: dotProduct(column, column) };
    },
  };
}

const weightedSum = (p: number, a: Matrix, q: number, b: Matrix): number[][] =>
  a.map((row, i) => row.map((value, j) => p * value + q * itemAt(itemAt(b, i), j)));

/** The weights of a third divided difference that starts at pin i, of length 1. */
function contrastRow(along: readonly number[], i: number): number[] {
  const stations = along.slice(i, i + ORDER + 1);
  const weights = stations.map((at) =>
    stations.reduce((product, other) => (other === at ? product : product / (at - other)), 1),
  );
  const size = Math.hypot(...weights);
  return along.map((_, j) => (weights[j - i] ?? 0) / size);
}

/** D·C·Dᵀ for the rows of D, which have ORDER + 1 entries from their diagonal on. */
function productOf(rows: Matrix, entry: (i: number, j: number) => number): number[][] {
  return rows.map((one, i) =>
    rows.map((other, j) => {
      let sum = 0;
      for (let k = i; k <= i + ORDER; k++)
        for (let l = j; l <= j + ORDER; l++) sum += itemAt(one, k) * itemAt(other, l) * entry(k, l);
      return sum;
    }),
  );
}

const dotProduct = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * itemAt(b, i), 0);

const logDeterminant = (lower: Matrix): number =>
  2 * lower.reduce((sum, row) => sum + Math.log(lastOf(row)), 0);
