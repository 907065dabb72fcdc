/** Σ a[i]·b[n − i], the n-th term of a product of series. */
export function productTerm(a: readonly number[], b: readonly number[], n: number): number {
  let sum = 0;
  for (let i = 0; i <= n; i++) sum += a[i]! * b[n - i]!;
  return sum;
}
