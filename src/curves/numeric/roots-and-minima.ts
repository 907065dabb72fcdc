/** Steps before giving up: halving alone takes 80 to bring 10 m below the spacing of doubles. */
const MAX_STEPS = 120;

/** Chandrupatla 1997, "A new hybrid quadratic/bisection algorithm". @returns undefined without a change of sign */
export function rootBetween(f: (x: number) => number, a: number, b: number): number | undefined {
  let near = b;
  let far = a;
  let last = a;
  let atNear = f(b);
  let atFar = f(a);
  let atLast = 0;
  if (atFar === 0) return a;
  if (atNear === 0) return b;
  if (!(atNear * atFar < 0)) return undefined;
  let part = 0.5;
  for (let i = 0; i < MAX_STEPS; i++) {
    const x = near + part * (far - near);
    const value = f(x);
    if (value * atNear > 0) {
      last = near;
      atLast = atNear;
    } else {
      last = far;
      atLast = atFar;
      far = near;
      atFar = atNear;
    }
    near = x;
    atNear = value;
    const best = Math.abs(atNear) < Math.abs(atFar) ? near : far;
    const least = (2 * Number.EPSILON * Math.abs(best)) / Math.abs(far - near);
    if (value === 0 || !(least < 0.5)) return best;
    part = Math.min(Math.max(inverseQuadraticStep(near, atNear, far, atFar, last, atLast), least), 1 - least);
  }
  return near;
}

/** The root's share of the way from a to b by the inverse quadratic through three points; else a half. */
function inverseQuadraticStep(a: number, fa: number, b: number, fb: number, c: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  if (!(phi ** 2 < xi && (1 - phi) ** 2 < 1 - xi)) return 0.5;
  return ((fa / (fb - fa)) * fc) / (fb - fc) + ((((c - a) / (b - a)) * fa) / (fc - fa)) * (fb / (fc - fb));
}

export interface ValueAndSlope {
  readonly value: number;
  readonly slope: number;
}

/** For f below 0 at low, above 0 at high; the error left is about the square of `tolerance`, the last Newton step. */
export function newtonRoot(
  f: (x: number) => ValueAndSlope,
  low: number,
  high: number,
  start: number,
  tolerance: number,
): number {
  let [below, above, x, last] = [low, high, start, high - low];
  for (let i = 0; i < MAX_STEPS; i++) {
    const { value, slope } = f(x);
    if (value < 0) below = x;
    else above = x;
    const newton = x - value / slope;
    const isSafe = newton >= below && newton <= above && Math.abs(newton - x) <= last / 2;
    const next = isSafe ? newton : (below + above) / 2;
    last = Math.abs(next - x);
    x = next;
    if (!(last > (isSafe ? tolerance : Number.EPSILON * Math.abs(x)))) break;
  }
  return x;
}

/** Steps that separate the roots and extremes along one piece, which turns a few times at most. */
export const SAMPLES_PER_PIECE = 24;

/** All roots of f in [0, 1] that `samples` equal steps separate. */
export function rootsOn(f: (u: number) => number, samples: number): number[] {
  const roots: number[] = [];
  let before = f(0);
  if (before === 0) roots.push(0);
  for (let i = 1; i <= samples; i++) {
    const value = f(i / samples);
    const root = before * value < 0 ? rootBetween(f, (i - 1) / samples, i / samples) : undefined;
    if (value === 0) roots.push(i / samples);
    else if (root !== undefined) roots.push(root);
    before = value;
  }
  return roots;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** 0.618^40 = 4e-9 of the bracket: as fine as doubles resolve a smooth extreme. */
const GOLDEN_STEPS = 40;

interface Minimum {
  readonly at: number;
  readonly value: number;
}

/** Where f is least on [0, 1], by `samples` equal steps and a golden-section search round the best. */
export function minimizeOn(f: (u: number) => number, samples: number): Minimum {
  let best = { at: 0, value: f(0) };
  for (let i = 1; i <= samples; i++) {
    const value = f(i / samples);
    if (value < best.value) best = { at: i / samples, value };
  }
  const found = goldenSection(f, Math.max(0, best.at - 1 / samples), Math.min(1, best.at + 1 / samples));
  return found.value < best.value ? found : best;
}

function goldenSection(f: (u: number) => number, from: number, to: number): Minimum {
  let [low, high] = [from, to];
  let [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [atA, atB] = [f(a), f(b)];
  for (let i = 1; i < GOLDEN_STEPS; i++) {
    if (atA < atB) {
      [high, b, atB] = [b, a, atA];
      a = high - GOLDEN * (high - low);
      atA = f(a);
    } else {
      [low, a, atA] = [a, b, atB];
      b = low + GOLDEN * (high - low);
      atB = f(b);
    }
  }
  if (atA < atB) high = b;
  else low = a;
  const at = (low + high) / 2;
  return { at, value: f(at) };
}
