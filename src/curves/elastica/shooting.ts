import { frequency } from '../geometry/pieces/elastica-series.ts';
import { productTerm } from '../numeric/taylor-series.ts';

/*
 * The end of a span with its chord from (0, 0) to (1, 0), by one Taylor series of κ″ = −κ³/2, θ′ = κ, x′ = cos θ, y′ =
 * sin θ and, for the derivatives, of its variations δκ″ = −(3/2)·κ²·δκ.
 */

interface Sensitivity {
  x: number;
  y: number;
  /** Of the tangent to the span's chord, radians. */
  angle: number;
  curvature: number;
  rate: number;
}

export interface SpanEnd extends Sensitivity {
  readonly byCurvature: Sensitivity;
  readonly byRate: Sensitivity;
}

const zeroState = (): Sensitivity => ({ x: 0, y: 0, angle: 0, curvature: 0, rate: 0 });
export const newSpanEnd = (): SpanEnd => ({ ...zeroState(), byCurvature: zeroState(), byRate: zeroState() });

/** The nearest pole of the series, times the frequency w: the lemniscate's quarter period K(1/√2). */
const POLE = 1.854;
/** Longest step times the frequency; near the cheapest, as longer steps need more terms. */
const STEP = 0.45;
/** −ln of the truncation error of a step: 1e-15. */
const LOG_TOLERANCE = 34.5;
/** (0.45/1.854)^25 < 1e-15; below 8 terms the saving is lost in the rest of the work. */
const [MIN_TERMS, MAX_TERMS] = [8, 25];
/** Share of the terms kept for the variations: good to 3e-8, they steer Newton's method to its last step of 1e-9. */
const SENSITIVITY_TERMS = 0.5;

const newSeries = (): number[] => new Array<number>(MAX_TERMS + 2).fill(0);
const K = newSeries();
const squaredCurvature = newSeries();
const cosine = newSeries();
const sine = newSeries();
const curvatureVariation = newSeries();
const angleVariation = newSeries();

/** Integrates a span into `end`, without allocation: this is the inner loop. */
export function integrateSpan(
  end: SpanEnd,
  angle: number,
  curvature: number,
  rate: number,
  length: number,
): void {
  const w = frequency(curvature, rate);
  const steps = Math.max(1, Math.ceil((w * length) / STEP));
  const h = length / steps;
  const wanted = Math.ceil(LOG_TOLERANCE / Math.log(POLE / Math.max(w * h, Number.MIN_VALUE)));
  const terms = Math.min(Math.max(wanted, MIN_TERMS), MAX_TERMS);
  end.x = 0;
  end.y = 0;
  end.angle = angle;
  end.curvature = curvature;
  end.rate = rate;
  Object.assign(end.byCurvature, ZERO_STATE).curvature = 1;
  Object.assign(end.byRate, ZERO_STATE).rate = 1;
  for (let i = 0; i < steps; i++) advance(end, h, terms);
}

const ZERO_STATE: Readonly<Sensitivity> = zeroState();

function advance(end: SpanEnd, h: number, terms: number): void {
  expandSeries(end, h, terms);
  const varied = Math.max(MIN_TERMS, Math.ceil(terms * SENSITIVITY_TERMS));
  advanceSensitivity(end.byCurvature, h, varied);
  advanceSensitivity(end.byRate, h, varied);
  let x = 0;
  let y = 0;
  let turned = 0;
  let curvature = 0;
  let rate = 0;
  for (let n = terms; n >= 0; n--) {
    const share = 1 / (n + 1);
    x += cosine[n]! * share;
    y += sine[n]! * share;
    turned += K[n]! * share;
    curvature += K[n]!;
    rate += n * K[n]!;
  }
  end.x += x * h;
  end.y += y * h;
  end.angle += turned * h;
  end.curvature = curvature;
  end.rate = rate / h;
}

/** The series of curvature, of its square and of the tangent, in s/h. */
function expandSeries({ angle, curvature, rate }: SpanEnd, h: number, terms: number): void {
  K[0] = curvature;
  K[1] = rate * h;
  cosine[0] = Math.cos(angle);
  sine[0] = Math.sin(angle);
  for (let n = 0; n < terms; n++) {
    squaredCurvature[n] = productTerm(K, K, n);
    let cube = 0;
    let down = 0;
    let across = 0;
    for (let i = 0; i <= n; i++) {
      const k = K[n - i]!;
      cube += k * squaredCurvature[i]!;
      down += k * sine[i]!;
      across += k * cosine[i]!;
    }
    K[n + 2] = (-cube * h * h) / (2 * (n + 1) * (n + 2));
    cosine[n + 1] = (-down * h) / (n + 1);
    sine[n + 1] = (across * h) / (n + 1);
  }
}

function advanceSensitivity(variation: Sensitivity, h: number, terms: number): void {
  curvatureVariation[0] = variation.curvature;
  curvatureVariation[1] = variation.rate * h;
  angleVariation[0] = variation.angle;
  let x = 0;
  let y = 0;
  let turned = 0;
  let curvature = curvatureVariation[0];
  let rate = 0;
  for (let n = 0; n < terms; n++) {
    let bending = 0;
    let back = 0;
    let up = 0;
    for (let i = 0; i <= n; i++) {
      bending += squaredCurvature[i]! * curvatureVariation[n - i]!;
      back += sine[i]! * angleVariation[n - i]!;
      up += cosine[i]! * angleVariation[n - i]!;
    }
    curvatureVariation[n + 2] = (-3 * bending * h * h) / (2 * (n + 1) * (n + 2));
    angleVariation[n + 1] = (curvatureVariation[n]! * h) / (n + 1);
    x -= back / (n + 1);
    y += up / (n + 1);
    turned += angleVariation[n + 1]!;
    curvature += curvatureVariation[n + 1]!;
    rate += (n + 1) * curvatureVariation[n + 1]!;
  }
  variation.x += x * h;
  variation.y += y * h;
  variation.angle += turned;
  variation.curvature = curvature;
  variation.rate = rate / h;
}
