/** Newton steps for one root of a Legendre polynomial; from the cosine start it needs 4. */
const MAX_STEPS = 20;

/** The rule on [−1, 1] with n points, an even number, exact up to degree 2n − 1 (Abramowitz & Stegun 25.4.29). */
function gaussLegendreRule(n: number): { node: number; weight: number }[] {
  const rule: { node: number; weight: number }[] = [];
  // The other half is their mirror image.
  for (let i = 1; i <= n / 2; i++) {
    let x = Math.cos((Math.PI * (i - 0.25)) / (n + 0.5));
    let slope = 1;
    for (let k = 0; k < MAX_STEPS; k++) {
      let [previous, p] = [1, x];
      for (let j = 2; j <= n; j++) {
        const next = ((2 * j - 1) * x * p - (j - 1) * previous) / j;
        previous = p;
        p = next;
      }
      slope = (n * (x * p - previous)) / (x * x - 1);
      const move = p / slope;
      x -= move;
      if (Math.abs(move) < 1e-16) break;
    }
    const weight = 2 / ((1 - x * x) * slope * slope);
    rule.push({ node: x, weight }, { node: -x, weight });
  }
  return rule;
}

/** 20 points: the strip's integrals (smooth after u = w²) and a cubic's length to rounding. */
const RULE = gaussLegendreRule(20);

/** ∫ f from a to b by the 20-point rule. */
export function integrate(f: (x: number) => number, a: number, b: number): number {
  const half = (b - a) / 2;
  const middle = (a + b) / 2;
  return half * RULE.reduce((sum, { node, weight }) => sum + weight * f(middle + half * node), 0);
}
