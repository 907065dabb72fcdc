/** Each mean doubles the digits: from the flattest arch (complement 1e-12) 9 reach a double's last digit. */
const MAX_ITERATIONS = 12;

/** By the arithmetic–geometric mean (Abramowitz & Stegun 17.6); k′ = √(1 − k²) keeps its digits as k nears 1. */
export function ellipticIntegrals(complement: number): { K: number; E: number } {
  let [a, b] = [1, complement];
  let share = (1 - complement) * (1 + complement);
  let sum = share / 2;
  for (let i = 0; i < MAX_ITERATIONS && share > Number.EPSILON ** 2 * a * a; i++) {
    share = ((a - b) / 2) ** 2;
    [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
    sum += 2 ** i * share;
  }
  const K = Math.PI / (2 * a);
  return { K, E: K * (1 - sum) };
}
