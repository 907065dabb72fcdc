/**
 * The share of a normal distribution (mean 0, deviation 1) below x, to 8e-8: Abramowitz & Stegun, "Handbook of
 * Mathematical Functions" (1964), 26.2.17.
 */
export function normalShareBelow(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const above = (series * Math.exp(-(x ** 2) / 2)) / Math.sqrt(2 * Math.PI);
  return x < 0 ? above : 1 - above;
}
