/** One figure of the benchmark. */
export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** At most this; absent where there is none yet. */
  readonly goal?: number;
}
