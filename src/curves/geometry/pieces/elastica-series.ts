import { productTerm } from '../../numeric/taylor-series.ts';
import type { Point } from '../point.ts';
import type { ElasticaSegment } from './piece.ts';

export interface ElasticaState extends Point {
  readonly angle: number;
  readonly curvature: number;
  /** Change of curvature along the strip, 1/mm². */
  readonly rate: number;
}

/**
 * The nearest pole is 1.854/w away without thrust, at least 1.646/w for a bow (k′ ≥ 0.417, where its ends touch): 22
 * terms over STEP/w leave (0.45/1.854)^22 ≈ 3e-14 and (0.45/1.646)^22 ≈ 4e-13 of a step.
 */
const ORDER = 22;
const STEP = 0.45;

/** Two dozen terms this small beside the largest of their series are lost in rounding. */
const NEGLIGIBLE = 2 ** -60;
/** Negligible terms in a row that end a series: from a free end without thrust three of four terms are 0. */
const CONSECUTIVE_NEGLIGIBLE = 4;

/** In 1/mm: w² is the force in the strip per its stiffness, κ′ across it and κ²/2 + thrust along it. */
export const frequency = (curvature: number, rate: number, thrust = 0): number =>
  Math.sqrt(Math.hypot(rate, curvature ** 2 / 2 + thrust));

const newSeries = (): number[] => new Array<number>(ORDER + 2).fill(0);

const squaredCurvature = newSeries();
const angleDerivative = newSeries();
const cosine = newSeries();
const sine = newSeries();

/**
 * One step of length h along κ″ = −κ³/2 − thrust·κ, θ′ = κ, x′ = cos θ, y′ = sin θ, by series in v = s/h: the whole
 * curvature, and what is added to x, y and angle, whose first term is that of v. A shallow strip needs half of ORDER.
 */
function expandStep(start: ElasticaState, h: number, thrust: number) {
  const K = newSeries();
  const curvatureLast = fillCurvatureTerms(K, start, h, thrust);
  const directionLast = fillDirectionTerms(K, start.angle, h);
  const [x, y, angle] = [newSeries(), newSeries(), newSeries()];
  for (let n = 0; n <= directionLast; n++) {
    const share = h / (n + 1);
    x[n] = cosine[n]! * share;
    y[n] = sine[n]! * share;
  }
  for (let n = 0; n <= curvatureLast; n++) angle[n] = (K[n]! * h) / (n + 1);
  return { start, h, x, y, angle, curvature: K, lastTerm: Math.max(curvatureLast, directionLast) };
}

/** Fills in the series of the curvature. @returns the last term that is not negligible */
function fillCurvatureTerms(
  K: number[],
  { curvature, rate }: ElasticaState,
  h: number,
  thrust: number,
): number {
  K[0] = curvature;
  K[1] = rate * h;
  let most = Math.max(Math.abs(curvature), Math.abs(rate * h));
  let last = 1;
  for (let n = 0; n < ORDER && n + 2 - last <= CONSECUTIVE_NEGLIGIBLE; n++) {
    squaredCurvature[n] = productTerm(K, K, n);
    const next = (-(productTerm(squaredCurvature, K, n) / 2 + thrust * K[n]!) * h * h) / ((n + 1) * (n + 2));
    K[n + 2] = next;
    if (!(Math.abs(next) > NEGLIGIBLE * most)) continue;
    most = Math.max(most, Math.abs(next));
    last = n + 2;
  }
  return Math.min(last, ORDER);
}

function fillDirectionTerms(K: readonly number[], angle: number, h: number): number {
  cosine[0] = Math.cos(angle);
  sine[0] = Math.sin(angle);
  let [mostCosine, mostSine] = [Math.abs(cosine[0]), Math.abs(sine[0])];
  let last = 0;
  for (let n = 0; n < ORDER && n + 1 - last <= CONSECUTIVE_NEGLIGIBLE; n++) {
    angleDerivative[n] = K[n]! * h; // (n + 1) × the angle's own term n + 1
    const across = -productTerm(angleDerivative, sine, n) / (n + 1);
    const up = productTerm(angleDerivative, cosine, n) / (n + 1);
    cosine[n + 1] = across;
    sine[n + 1] = up;
    if (!(Math.abs(across) > NEGLIGIBLE * mostCosine || Math.abs(up) > NEGLIGIBLE * mostSine)) continue;
    mostCosine = Math.max(mostCosine, Math.abs(across));
    mostSine = Math.max(mostSine, Math.abs(up));
    last = n + 1;
  }
  return last;
}

function evaluateStep(step: ReturnType<typeof expandStep>, v: number): ElasticaState {
  const { start, h, x: xs, y: ys, angle: angles, curvature: curvatures, lastTerm } = step;
  let x = 0;
  let y = 0;
  let angle = 0;
  let curvature = 0;
  let rate = 0;
  for (let n = lastTerm; n >= 0; n--) {
    x = x * v + xs[n]!;
    y = y * v + ys[n]!;
    angle = angle * v + angles[n]!;
    rate = rate * v + curvature;
    curvature = curvature * v + curvatures[n]!;
  }
  return {
    x: start.x + x * v,
    y: start.y + y * v,
    angle: start.angle + angle * v,
    curvature,
    rate: rate / h,
  };
}

/** Every figure, fit and parallel of a stretch runs along the same series. */
const statesBySegment = new WeakMap<ElasticaSegment, (s: number) => ElasticaState>();

/** The state at any length s from the start of a stretch of strip, to 1e-12 of the length (see ORDER). */
export function elasticaStates(segment: ElasticaSegment): (s: number) => ElasticaState {
  const states = statesBySegment.get(segment) ?? computeStates(segment);
  statesBySegment.set(segment, states);
  return states;
}

function computeStates(segment: ElasticaSegment): (s: number) => ElasticaState {
  const { from, length, angle, curvature, curvatureRate: rate, thrust = 0 } = segment;
  const count = Math.max(1, Math.ceil((frequency(curvature, rate, thrust) * length) / STEP));
  const h = length / count;
  let step = expandStep({ ...from, angle, curvature, rate }, h, thrust);
  const steps = [step];
  while (steps.length < count) {
    step = expandStep(evaluateStep(step, 1), h, thrust);
    steps.push(step);
  }
  return (s) => {
    const i = Math.min(count - 1, Math.max(0, Math.floor(s / h)));
    return evaluateStep(steps[i] ?? step, s / h - i);
  };
}
