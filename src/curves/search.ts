/** Halvings before a bracket counts as closed: 80 take 10 m below the spacing of doubles. */
const MAX_STEPS = 80;

/**
 * A root of f between a and b, where f changes sign: secant steps kept inside the bracket by bisection.
 * @returns undefined when f does not change sign between a and b
 */
export function rootBetween(f: (x: number) => number, a: number, b: number): number | undefined {
  let [low, high] = [a, b];
  let [atLow, atHigh] = [f(low), f(high)];
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (!(atLow * atHigh < 0)) return undefined;
  for (let i = 0; i < MAX_STEPS; i++) {
    const secant = low - (atLow * (high - low)) / (atHigh - atLow);
    // Every other step halves the bracket, so that one slow side cannot stall the search.
    const x = i % 2 === 1 || !(secant > low && secant < high) ? (low + high) / 2 : secant;
    const value = f(x);
    if (value === 0 || high - low <= 2 * Number.EPSILON * Math.max(Math.abs(low), Math.abs(high))) return x;
    if (atLow * value < 0) [high, atHigh] = [x, value];
    else [low, atLow] = [x, value];
  }
  return (low + high) / 2;
}

/** All roots of f in [0, 1] that `samples` equal steps can tell apart. */
export function rootsOnUnit(f: (u: number) => number, samples: number): number[] {
  const roots: number[] = [];
  let before = f(0);
  if (before === 0) roots.push(0);
  for (let i = 1; i <= samples; i++) {
    const value = f(i / samples);
    if (value === 0) roots.push(i / samples);
    else if (before * value < 0) roots.push(rootBetween(f, (i - 1) / samples, i / samples)!);
    before = value;
  }
  return roots;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** 0.618^40 = 4e-9 of the bracket: as fine as a smooth extreme can be told in doubles. */
const GOLDEN_STEPS = 40;

/** Where f is least on [0, 1], by `samples` equal steps and a golden-section search round the best. */
export function leastOnUnit(f: (u: number) => number, samples: number): { at: number; value: number } {
  let best = 0;
  let value = f(0);
  for (let i = 1; i <= samples; i++) {
    const next = f(i / samples);
    if (next < value) [best, value] = [i / samples, next];
  }
  let low = Math.max(0, best - 1 / samples);
  let high = Math.min(1, best + 1 / samples);
  for (let i = 0; i < GOLDEN_STEPS; i++) {
    const a = high - GOLDEN * (high - low);
    const b = low + GOLDEN * (high - low);
    if (f(a) < f(b)) high = b;
    else low = a;
  }
  const at = (low + high) / 2;
  const found = f(at);
  return found < value ? { at, value: found } : { at: best, value };
}
