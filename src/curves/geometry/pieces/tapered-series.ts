import { firstOf, lastOf } from '../../../units/checked.ts';
import { productTerm } from '../../numeric/taylor-series.ts';
import { direction, dot, leftNormal, type Point, scale, subtract } from '../point.ts';
import type { TaperedSegment } from './piece.ts';

/* θ′ = M/t³, M′ = f·n (n the left normal), x′ = cos θ, y′ = sin θ; by Taylor series in the share u of the length. */

export interface TaperedState extends Point {
  readonly angle: number;
  readonly curvature: number;
  /** Curvature × thickness³, mm². */
  readonly moment: number;
  readonly thickness: number;
  /** Stretch of the outer fiber: half the thickness ÷ the radius, ≥ 0. */
  readonly strain: number;
}

/**
 * Step as a share of the radius of convergence that the last terms show, of which 0.2^22 = 4e-16 is left (Jorba & Zou,
 * "A software package for the numerical integration of ODEs by means of high-order Taylor methods", Experimental
 * Mathematics 14 (2005)).
 */
const ORDER = 22;
const STEP_SHARE = 0.2;
/** Steps before a stretch counts as wound up: one that a maker can bend takes 3 to 20. */
const MAX_STEPS = 300;

const newSeries = (start: number): number[] => {
  const terms = new Array<number>(ORDER + 1).fill(0);
  terms[0] = start;
  return terms;
};

const cos = newSeries(0);
const sin = newSeries(0);
const inverseCubedThickness = newSeries(0);
const curvature = newSeries(0);
const angleDerivative = newSeries(0);

/** The series of one step, from share u of the stretch on; `work` is ∫ M κ ds from the step's start, twice the energy. */
function expandStep(strip: TaperedSegment, u: number, start: Point, angle0: number, moment0: number) {
  const { force, length, thickness } = strip;
  const slope = thickness[1] - thickness[0];
  const thick = thickness[0] + slope * u;
  const [x, y] = [newSeries(start.x), newSeries(start.y)];
  const [angle, moment, work] = [newSeries(angle0), newSeries(moment0), newSeries(0)];
  cos[0] = Math.cos(angle0);
  sin[0] = Math.sin(angle0);
  inverseCubedThickness[0] = thick ** -3;
  for (let n = 0; n < ORDER; n++) {
    const next = n + 1;
    curvature[n] = productTerm(moment, inverseCubedThickness, n);
    angleDerivative[n] = length * curvature[n]!; // (n + 1) × the angle's own term n + 1
    // t·(t⁻³)′ = −3·t′·t⁻³, term by term.
    inverseCubedThickness[next] = (-slope * (n + 3) * inverseCubedThickness[n]!) / (thick * next);
    angle[next] = angleDerivative[n]! / next;
    cos[next] = -productTerm(angleDerivative, sin, n) / next;
    sin[next] = productTerm(angleDerivative, cos, n) / next;
    moment[next] = (length * (force.y * cos[n]! - force.x * sin[n]!)) / next;
    x[next] = (length * cos[n]!) / next;
    y[next] = (length * sin[n]!) / next;
    work[next] = (length * productTerm(moment, curvature, n)) / next;
  }
  const size = (n: number): number => Math.max(Math.abs(cos[n]!), Math.abs(sin[n]!), Math.abs(angle[n]!));
  const radius = Math.min(
    size(ORDER) ** (-1 / ORDER),
    size(ORDER - 1) ** (-1 / (ORDER - 1)),
    thick / Math.abs(slope),
  );
  return { u, x, y, angle, moment, work, reach: Math.max(STEP_SHARE * radius, 1 / MAX_STEPS) };
}

function evaluateSeries(terms: readonly number[], h: number): number {
  let value = 0;
  for (let n = ORDER; n >= 0; n--) value = value * h + terms[n]!;
  return value;
}

type TaperedStep = ReturnType<typeof expandStep>;

const evaluateStep = ({ x, y, angle, moment }: TaperedStep, h: number) => ({
  x: evaluateSeries(x, h),
  y: evaluateSeries(y, h),
  angle: evaluateSeries(angle, h),
  moment: evaluateSeries(moment, h),
});

function stepsOf(strip: TaperedSegment): TaperedStep[] {
  let step = expandStep(strip, 0, strip.from, strip.angle, strip.moment);
  const steps = [step];
  while (step.u + step.reach < 1) {
    const end = evaluateStep(step, step.reach);
    step = expandStep(strip, step.u + step.reach, end, end.angle, end.moment);
    steps.push(step);
  }
  return steps;
}

/** The state at any share u of a stretch's length, to 1e-12 of the length (see ORDER). */
export function taperedStates(strip: TaperedSegment): (u: number) => TaperedState {
  const steps = stepsOf(strip);
  const [thick0, thick1] = strip.thickness;
  return (u) => {
    const step = steps.findLast((s) => s.u <= u) ?? firstOf(steps);
    const { x, y, angle, moment } = evaluateStep(step, u - step.u);
    const thickness = thick0 + (thick1 - thick0) * u;
    const curvature = moment / thickness ** 3;
    return { x, y, angle, curvature, moment, thickness, strain: (Math.abs(curvature) * thickness) / 2 };
  };
}

/** Where a stretch ends, for the search of its shape; `work` is ∫ M κ ds along all of it. */
export function taperedEnd(strip: TaperedSegment): Point & { angle: number; moment: number; work: number } {
  const steps = stepsOf(strip);
  const before = steps.slice(0, -1).reduce((sum, { work, reach }) => sum + evaluateSeries(work, reach), 0);
  const last = lastOf(steps);
  const h = 1 - last.u;
  return { ...evaluateStep(last, h), work: before + evaluateSeries(last.work, h) };
}

/** The same stretch from its end to its start. */
export function reverseTapered(strip: TaperedSegment): TaperedSegment {
  const { x, y, angle, moment } = taperedEnd(strip);
  const [start, end] = strip.thickness;
  // Read backwards the strip turns the other way, and its force is the push of the other pins.
  const force = scale(strip.force, -1);
  return {
    ...strip,
    from: { x, y },
    angle: angle + Math.PI,
    moment: -moment,
    force,
    thickness: [end, start],
  };
}

/** What a pin does to the strip. Times Young's modulus times width/12 forces are in N and the moment in N·mm. */
export interface PinPush {
  readonly at: Point;
  /** The tangent's direction at the pin, radians from the reference line. */
  readonly angle: number;
  /** Force on the strip along its left normal, mm. */
  readonly across: number;
  /** Force on the strip along itself, toward its end, mm: friction or a stop has to hold it. */
  readonly endwise: number;
  /** Curvature × thickness³, mm². */
  readonly moment: number;
}

/** What every pin of a tapered strip does, ends included, from its stretches in order. */
export function pinPushes(spans: readonly TaperedSegment[]): PinPush[] {
  const states = [...spans.map((span) => ({ ...span.from, ...span })), taperedEnd(lastOf(spans))];
  return states.map(({ x, y, angle, moment }, i) => {
    const force = subtract(spans[i]?.force ?? NO_FORCE, spans[i - 1]?.force ?? NO_FORCE);
    const along = direction(angle);
    return { at: { x, y }, angle, across: dot(force, leftNormal(along)), endwise: dot(force, along), moment };
  });
}

const NO_FORCE: Point = { x: 0, y: 0 };
