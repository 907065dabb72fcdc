import { itemAt } from '../../units/checked.ts';
import { type ChordGeometry, newtonSolve, type StateVector, Workspace } from './newton-many-pins.ts';
import {
  chordGeometry,
  flatProblem,
  interpolateProblem,
  nonlinearity,
  type StripProblem,
  shallowState,
  straightState,
} from './strip-problem.ts';

/* Newton's method from the shallow shape finds moderate strips; continuation from the straight strip deeper ones. */

/** Largest nonlinearity (radians) from which the shallow start leads to the right strip: by trial on 3000 random sets. */
const MAX_DIRECT_NONLINEARITY = 1.05;
/** Nonlinearity that one continuation step may add. */
const CONTINUATION_STEP = 0.35;
/** Newton step at which to stop: the error is then below rounding. */
const EXACT_TOLERANCE = 1e-9;
/** Newton step that is good enough to start the next continuation step. */
const ROUGH_TOLERANCE = 1e-4;
const [MAX_DIRECT_STEPS, MAX_CONTINUATION_STEPS] = [12, 7];
/** Accuracy of the stability limit: the smallest step, as a share of the whole. */
const MIN_STEP = 1e-9;
/** Work budget in spans, about 1.5 s; a dozen pins at their limit take 5% of it. */
const MAX_WORK = 150_000;

/** Where the continuation ended: share 1 is the strip asked for. */
export interface ContinuationResult {
  readonly share: number;
  readonly state: StateVector;
  /** The work budget ran out before the stability limit was located. */
  readonly exhausted: boolean;
}

/** The strip at rest over pins, found directly or by continuation from the straight strip. */
export function solveEquilibrium(pins: StripProblem, finest = MIN_STEP): ContinuationResult {
  const chords = chordGeometry(pins);
  const state = shallowState(chords);
  const depth = nonlinearity(chords, state);
  const workspace = new Workspace(pins.stations.length);
  if (depth <= MAX_DIRECT_NONLINEARITY && solveExactly(chords, state, workspace))
    return { share: 1, state, exhausted: false };
  const straight = { pins: flatProblem(pins), state: straightState(pins.stations.length) };
  const steps = Math.max(2, Math.ceil(depth / CONTINUATION_STEP));
  return followContinuation(straight, pins, steps, () => true, finest);
}

const solveExactly = (chords: ChordGeometry, state: StateVector, workspace: Workspace): boolean =>
  newtonSolve(chords, state, workspace, EXACT_TOLERANCE, MAX_DIRECT_STEPS);

export function solveNearby(pins: StripProblem, known: StateVector): StateVector | undefined {
  const state = known.slice();
  return solveExactly(chordGeometry(pins), state, new Workspace(pins.stations.length)) ? state : undefined;
}

/** Equal steps, halved where the strip does not follow, each started by extrapolating the last two. */
export function followContinuation(
  from: { readonly pins: StripProblem; readonly state: StateVector },
  to: StripProblem,
  steps: number,
  accept: (pins: StripProblem, state: StateVector) => boolean = () => true,
  finest = MIN_STEP,
): ContinuationResult {
  const count = to.stations.length;
  const workspace = new Workspace(count);
  let [share, step, work] = [0, 1 / steps, 0];
  let [state, before, gap] = [from.state, from.state, 1];
  while (share < 1) {
    const next = share + step > 1 - finest ? 1 : share + step;
    const pins = interpolateProblem(from.pins, to, next);
    const trial = state.map((value, i) => value + ((value - itemAt(before, i)) * (next - share)) / gap);
    const done = next === 1 ? EXACT_TOLERANCE : ROUGH_TOLERANCE;
    const most = next === 1 ? MAX_DIRECT_STEPS : MAX_CONTINUATION_STEPS;
    work += most * count;
    if (newtonSolve(chordGeometry(pins), trial, workspace, done, most) && accept(pins, trial)) {
      [before, gap] = [state, next - share];
      [state, share] = [trial, next];
      step = Math.min(2 * step, 1 / steps);
    } else step /= 2;
    if (step < finest) return { share, state, exhausted: false };
    if (work > MAX_WORK) return { share, state, exhausted: true };
  }
  return { share, state, exhausted: false };
}
