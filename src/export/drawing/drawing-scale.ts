/** Scales of the drawing board: 1 : 2, 1 : 2.5, …; among the tens also 1 : 12 and 1 : 15. */
const UNITS = [1, 2, 2.5, 3, 4, 5, 6, 8] as const;
const TENS = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8] as const;

/** The largest usual scale that is no larger than asked; as much over 1 for small parts. */
export function standardScale(most: number): number {
  const least = (1 / most) * (1 - 1e-9);
  const decade = 10 ** Math.floor(Math.log10(least));
  const reductions = [decade, 10 * decade].flatMap((ten) =>
    (ten >= 10 ? TENS : UNITS).map((step) => step * ten),
  );
  return 1 / (reductions.find((reduction) => reduction >= least) ?? 100 * decade);
}

/** "1 : 5", "2 : 1". */
export const scaleRatio = (factor: number): string =>
  factor > 1 ? `${Number(factor.toPrecision(3))} : 1` : `1 : ${Number((1 / factor).toPrecision(3))}`;
