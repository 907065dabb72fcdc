import { itemAt } from '../../units/checked.ts';

/** Middles between two ends, mm, moved by the least sum of squares; undefined where the labels have no room. */
export function spreadLabels(
  labels: readonly { readonly at: number; readonly width: number }[],
  low: number,
  high: number,
): number[] | undefined {
  let total = 0;
  const wished = labels.map(({ at, width }) => {
    const before = total;
    total += width;
    return { start: at - width / 2 - before, shift: before + width / 2 };
  });
  if (total > high - low) return undefined;
  // Pool adjacent violators: Barlow and others, 1972; from memory.
  const pools: { sum: number; count: number }[] = [];
  for (const { start } of wished) {
    let pool = { sum: start, count: 1 };
    for (let last = pools.at(-1); last && last.sum / last.count >= pool.sum / pool.count; ) {
      pool = { sum: pool.sum + last.sum, count: pool.count + last.count };
      pools.pop();
      last = pools.at(-1);
    }
    pools.push(pool);
  }
  const starts = pools.flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count));
  return wished.map(({ shift }, i) => Math.min(Math.max(itemAt(starts, i), low), high - total) + shift);
}
