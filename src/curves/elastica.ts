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

/** A term so small beside the largest of its series is lost in rounding, were there two dozen of them. */
const LOST = 2 ** -60;

/**
 * How quickly the solution runs through its period, 1/mm: w² is the force in the strip per its
 * stiffness, κ′ across it and κ²/2 + thrust along it; constant along a span.
 */
export const pace = (curvature: number, rate: number, thrust = 0): number =>
  Math.sqrt(Math.hypot(rate, curvature ** 2 / 2 + thrust));

const series = (): Float64Array => new Float64Array(ORDER + 1);

/** Room for the series that are needed only while a step is worked out. */
const square = series();
const turn = series();
const cosine = series();
const sine = series();

/** The series of one step, each in the share of its length h that has been run. */
interface Step {
  readonly start: ElasticaState;
  readonly h: number;
  /** What is added to the start's, per share run: the term of v is first. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly angle: Float64Array;
  /** Whole. */
  readonly curvature: Float64Array;
  /** The last term that tells; a shallow strip needs half of them. */
  readonly last: number;
}

/** One step of length h along κ″ = −κ³/2 − thrust·κ, θ′ = κ, x′ = cos θ, y′ = sin θ, by series in s/h. */
function stepFrom(start: ElasticaState, h: number, thrust: number): Step {
  const K = new Float64Array(ORDER + 2);
  K[0] = start.curvature;
  K[1] = start.rate * h;
  for (let n = 0; n < ORDER; n++) {
    square[n] = term(K, K, n);
    K[n + 2] = (-(term(square, K, n) / 2 + thrust * K[n]!) * h * h) / ((n + 1) * (n + 2));
  }
  cosine[0] = Math.cos(start.angle);
  sine[0] = Math.sin(start.angle);
  for (let n = 0; n < ORDER; n++) {
    turn[n] = K[n]! * h; // (n + 1) × the angle's own term n + 1
    cosine[n + 1] = -term(turn, sine, n) / (n + 1);
    sine[n + 1] = term(turn, cosine, n) / (n + 1);
  }
  const [x, y, angle] = [series(), series(), series()];
  for (let n = 0; n <= ORDER; n++) {
    const share = h / (n + 1);
    x[n] = cosine[n]! * share;
    y[n] = sine[n]! * share;
    angle[n] = K[n]! * share;
  }
  return { start, h, x, y, angle, curvature: K, last: lastOf([x, y, angle, K]) };
}

function lastOf(all: readonly Float64Array[]): number {
  const least = all.map((each) => LOST * each.reduce((most, one) => Math.max(most, Math.abs(one)), 0));
  let n = ORDER;
  while (n > 0 && all.every((each, i) => Math.abs(each[n]!) <= least[i]!)) n--;
  return n;
}

/** The state at a share v of a step. */
function stateOn(step: Step, v: number): ElasticaState {
  const { start, h, x: xs, y: ys, angle: angles, curvature: curvatures, last } = step;
  let x = 0;
  let y = 0;
  let angle = 0;
  let curvature = 0;
  let rate = 0;
  for (let n = last; n >= 0; n--) {
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

/** The series of stretches looked at lately: every figure, fit and parallel of a stretch runs along the same ones. */
const known = new WeakMap<ElasticaSegment, (s: number) => ElasticaState>();

/**
 * The state at any length s from the start of a stretch of strip, 0 ≤ s ≤ length.
 * Error below 1e-12 of the length (series, see ORDER; rounding adds a few ulp a step).
 */
export function elasticaStates(segment: ElasticaSegment): (s: number) => ElasticaState {
  const states = known.get(segment) ?? workedOut(segment);
  known.set(segment, states);
  return states;
}

function workedOut(segment: ElasticaSegment): (s: number) => ElasticaState {
  const { from, length, angle, curvature, curvatureRate: rate, thrust = 0 } = segment;
  const count = Math.max(1, Math.ceil((pace(curvature, rate, thrust) * length) / STEP));
  const h = length / count;
  const steps = [stepFrom({ ...from, angle, curvature, rate }, h, thrust)];
  while (steps.length < count) steps.push(stepFrom(stateOn(steps.at(-1)!, 1), h, thrust));
  return (s) => {
    const i = Math.min(count - 1, Math.max(0, Math.floor(s / h)));
    return stateOn(steps[i]!, s / h - i);
  };
}
