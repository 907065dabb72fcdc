export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** At most this; absent where there is none yet. */
  readonly goal?: number;
}

/** Runs before the clock starts, so that the machine code is warm. */
const WARM_UP = 20;
export const RUNS = 200;

export const medianOf = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1]!;

/** The median time of one call, ms. Runs differ by their number, the same in every process. */
export function median(work: (i: number) => unknown, runs = RUNS): number {
  for (let i = 0; i < WARM_UP; i++) work(i);
  const times = Array.from({ length: runs }, (_, i) => {
    const started = performance.now();
    work(i);
    return performance.now() - started;
  });
  return medianOf(times);
}
