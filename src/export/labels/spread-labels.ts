export interface LabelOnLine {
  readonly at: number;
  readonly width: number;
}

/**
 * Middles for labels between two ends, in order and none on another, moved from where they want to be by the
 * least sum of squares; undefined where they are wider than the line. Pools of labels that push each other
 * share their shift (pool adjacent violators: Barlow and others, 1972; from memory).
 */
export function spreadLabels(
  labels: readonly LabelOnLine[],
  low: number,
  high: number,
): number[] | undefined {
  const total = labels.reduce((sum, { width }) => sum + width, 0);
  if (total > high - low) return undefined;
  const before = widthsBefore(labels);
  const pools: { sum: number; count: number }[] = [];
  labels.forEach(({ at, width }, i) => {
    let pool = { sum: at - width / 2 - before[i]!, count: 1 };
    for (let last = pools.at(-1); last && last.sum / last.count >= pool.sum / pool.count; last = pools.at(-1))
      pool = { sum: pool.sum + pools.pop()!.sum, count: pool.count + last.count };
    pools.push(pool);
  });
  const starts = pools.flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count));
  const most = high - total;
  return labels.map(({ width }, i) => {
    const start = Math.min(Math.max(starts[i]!, low), most) + before[i]!;
    return start + width / 2;
  });
}

function widthsBefore(labels: readonly LabelOnLine[]): number[] {
  let sum = 0;
  return labels.map(({ width }) => {
    const before = sum;
    sum += width;
    return before;
  });
}
