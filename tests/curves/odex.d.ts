/**
 * What a test uses of odex 2.0.4 (extrapolation after Gragg, Bulirsch and Stoer). The package ships its
 * source, which our stricter compiler would check, so tsconfig.json names these types in its place.
 */
declare class Solver {
  constructor(dimension: number);
  absoluteTolerance: number;
  relativeTolerance: number;
  solve(
    derivative: (x: number, y: readonly number[]) => number[],
    from: number,
    start: readonly number[],
    to: number,
  ): { readonly y: readonly number[] };
}

declare const odex: { readonly Solver: typeof Solver };
export default odex;
