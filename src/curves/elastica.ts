import type { ElasticaSegment } from './piece.ts';
import { term } from './series.ts';

/** Where the strip is and how it bends at one place along it. */
export interface ElasticaState {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
  readonly curvature: number;
  /** Change of curvature along the strip, 1/mm². */
  readonly rate: number;
}

/**
 * Terms of the Taylor series. The strip's equation has its nearest pole K(k′)/w away: 1.854/w without
 * thrust (the lemniscate quarter period), at least 1.646/w for a bow (k′ ≥ 0.417, where its ends touch).
 * So 22 terms over STEP/w leave (0.45/1.854)^22 ≈ 3e-14 and (0.45/1.646)^22 ≈ 4e-13 of a step.
 */
const ORDER = 22;
const STEP = 0.45;

/**
 * How quickly the solution runs through its period, 1/mm: w² is the force in the strip per its
 * stiffness, κ′ across it and κ²/2 + thrust along it; constant along a span.
 */
export const pace = (curvature: number, rate: number, thrust = 0): number =>
  Math.sqrt(Math.hypot(rate, curvature ** 2 / 2 + thrust));

const K = new Float64Array(ORDER + 2);
const square = new Float64Array(ORDER);
const angle = new Float64Array(ORDER + 1);
const cosine = new Float64Array(ORDER + 1);
const sine = new Float64Array(ORDER + 1);

/** One step of length h along κ″ = −κ³/2 − thrust·κ, θ′ = κ, x′ = cos θ, y′ = sin θ, by series in s/h. */
function step(from: ElasticaState, h: number, thrust: number): ElasticaState {
  K[0] = from.curvature;
  K[1] = from.rate * h;
  for (let n = 0; n < ORDER; n++) {
    square[n] = term(K, K, n);
    K[n + 2] = (-(term(square, K, n) / 2 + thrust * K[n]!) * h * h) / ((n + 1) * (n + 2));
  }
  cosine[0] = Math.cos(from.angle);
  sine[0] = Math.sin(from.angle);
  for (let n = 0; n < ORDER; n++) {
    angle[n] = K[n]! * h; // (n + 1) × the angle's own term n + 1
    cosine[n + 1] = -term(angle, sine, n) / (n + 1);
    sine[n + 1] = term(angle, cosine, n) / (n + 1);
  }
  let x = 0;
  let y = 0;
  let turned = 0;
  let curvature = 0;
  let rate = 0;
  for (let n = ORDER; n >= 0; n--) {
    x += cosine[n]! / (n + 1);
    y += sine[n]! / (n + 1);
    turned += K[n]! / (n + 1);
    curvature += K[n]!;
    rate += n * K[n]!;
  }
  return {
    x: from.x + x * h,
    y: from.y + y * h,
    angle: from.angle + turned * h,
    curvature,
    rate: h === 0 ? from.rate : rate / h,
  };
}

/**
 * The state at any length s from the start of a stretch of strip, 0 ≤ s ≤ length.
 * Error below 1e-12 of the length (series, see ORDER; rounding adds a few ulp a step).
 */
export function elasticaStates(segment: ElasticaSegment): (s: number) => ElasticaState {
  const { from, length, curvature, curvatureRate, thrust = 0 } = segment;
  const steps = Math.max(1, Math.ceil((pace(curvature, curvatureRate, thrust) * length) / STEP));
  const h = length / steps;
  const nodes: ElasticaState[] = [
    { x: from.x, y: from.y, angle: segment.angle, curvature, rate: curvatureRate },
  ];
  for (let i = 0; i < steps - 1; i++) nodes.push(step(nodes[i]!, h, thrust));
  return (s) => {
    const i = Math.min(steps - 1, Math.max(0, Math.floor(s / h)));
    return step(nodes[i]!, s - i * h, thrust);
  };
}
