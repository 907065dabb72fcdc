import { integrate } from '../numeric/gauss-legendre.ts';

/*
 * The rectangular elastica from a free end (no moment, tangent square to the force), by the angle a it has
 * turned, 0 ≤ a ≤ π, for a force of 1:
 *   across the force  X(a) = 2·√(sin a)       along the force  Y(a) = ∫₀ᵃ √(sin u) du
 *   length            S(a) = ∫₀ᵃ du/√(sin u)
 * The integrals become smooth with u = w²; past a quarter turn they mirror.
 */

/** (sin w²)/w², smooth through 0. */
const sinc = (w: number): number => (w === 0 ? 1 : Math.sin(w * w) / (w * w));

const integrateY = (a: number): number => integrate((w) => 2 * w * w * Math.sqrt(sinc(w)), 0, Math.sqrt(a));
const integrateS = (a: number): number => integrate((w) => 2 / Math.sqrt(sinc(w)), 0, Math.sqrt(a));

const mirrored = (f: (a: number) => number, quarter: number, a: number): number =>
  a <= Math.PI / 2 ? f(a) : 2 * quarter - f(Math.PI - a);

/** Y(π/2) = (2π)^{3/2}/Γ(1/4)², half the lobe's span. */
export const QUARTER_Y = integrateY(Math.PI / 2);
/** S(π/2) = √2·K(1/√2), the lemniscate constant. */
export const QUARTER_S = integrateS(Math.PI / 2);

/** Y(a), for a turn a in radians. */
export const elasticaY = (a: number): number => mirrored(integrateY, QUARTER_Y, a);
/** S(a), for a turn a in radians. */
export const elasticaS = (a: number): number => mirrored(integrateS, QUARTER_S, a);
/** X(a), for a turn a in radians. */
export const elasticaX = (a: number): number => 2 * Math.sqrt(Math.sin(a));

/** Gauss's constant, 0.8346268…: the greatest rise over a middle nail (Horn 1983, "The Curve of Least Energy"). */
export const GAUSS_CONSTANT = 1 / QUARTER_Y;

/** d(a): the angle at the free end from the span's chord to the strip, radians. */
export const freeEndAngle = (a: number): number => Math.atan2(elasticaY(a), elasticaX(a));
/** f(a) = a − d(a): the angle at the far end from the strip to the span's chord, radians. */
export const nailEndAngle = (a: number): number => a - freeEndAngle(a);
/** g(a) = √(sin a·(4 sin a + Y²)): the curvature at the far end times the span's chord. */
export const nailCurvature = (a: number): number =>
  Math.sqrt(Math.sin(a) * (4 * Math.sin(a) + elasticaY(a) ** 2));
