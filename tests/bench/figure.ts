export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** At most this; absent where there is none yet. */
  readonly goal?: number;
  /** Where the value lies nineteen times in twenty; absent where it was not asked. */
  readonly range?: Range;
}

type Range = readonly [least: number, most: number];

/** Runs before the clock starts, so that the machine code is warm. */
const WARM_UP = 20;
export const RUNS = 200;

export const medianOf = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1]!;

/**
 * Where the median of what the values are drawn from lies, nineteen times in twenty: between two of them by rank, however
 * they are spread (the binomial distribution of those below the median, its width by the normal one).
 */
export function medianRange(values: readonly number[]): Range {
  const inOrder = values.toSorted((a, b) => a - b);
  const left = Math.max(1, Math.floor((values.length - 1.96 * Math.sqrt(values.length)) / 2));
  return [inOrder.at(left - 1)!, inOrder.at(-left)!];
}

/** The time of one call, ms. */
export function once(work: () => unknown): number {
  const started = performance.now();
  work();
  return performance.now() - started;
}

/** The median time of one call, ms. Runs differ by their number, the same in every process. */
export function median(work: (i: number) => unknown, runs = RUNS): number {
  for (let i = 0; i < WARM_UP; i++) work(i);
  return medianOf(Array.from({ length: runs }, (_, i) => once(() => work(i))));
}
