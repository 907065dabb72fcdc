import { firstOf, itemAt } from '../../units/checked.ts';
import { solveThreePinStrip } from '../elastica/three-pin-closed-form.ts';
import type { TaperedSegment } from '../geometry/pieces/piece.ts';
import { taperedEnd } from '../geometry/pieces/tapered-series.ts';
import { cross, direction, dot, leftNormal, type Point, scale, subtract } from '../geometry/point.ts';
import { type NewtonOptions, type NewtonRoot, newtonSystem } from '../numeric/newton.ts';

/*
 * Ends at (0, 0) and (1, 0), nail above the chord, thickness 1 at the start. Unknown are the angle at the start and
 * each span's length and force. Both spans reach their far pin (4 equations); the end has no moment (1); the nail
 * pushes square to the strip (1); the strip has found its length (1).
 */

type Spans = readonly [TaperedSegment, TaperedSegment];

export const START: Point = { x: 0, y: 0 };
export const END: Point = { x: 1, y: 0 };

type Unknowns = readonly [number, number, number, number, number, number, number];
type TaperedEnd = ReturnType<typeof taperedEnd>;

function spansFromUnknowns(at: readonly number[], nail: Point, ratio: number) {
  const [angle, length, length2, x, y, x2, y2] = at as Unknowns;
  const middle = 1 + ((ratio - 1) * length) / (length + length2);
  const ends = { type: 'tapered', from: START, angle, moment: 0 } as const;
  const first: TaperedSegment = { ...ends, force: { x, y }, thickness: [1, middle], length };
  const atNail = taperedEnd(first);
  const { moment } = atNail;
  const carried = { type: 'tapered', from: nail, angle: atNail.angle, moment } as const;
  const force = { x: x2, y: y2 };
  const second: TaperedSegment = { ...carried, force, thickness: [middle, ratio], length: length2 };
  const spans: Spans = [first, second];
  return { spans, atNail };
}

function residual(at: readonly number[], nail: Point, ratio: number): number[] {
  const { spans, atNail } = spansFromUnknowns(at, nail, ratio);
  const [first, second] = spans;
  const far = taperedEnd(second);
  // The taper stretches with the length: the work of the pins is half of the bending energy.
  const push = dot(first.force, nail) + dot(second.force, subtract(END, nail));
  return [
    atNail.x - nail.x,
    atNail.y - nail.y,
    far.x - END.x,
    far.y - END.y,
    far.moment,
    dot(subtract(second.force, first.force), direction(atNail.angle)),
    push - (atNail.work + far.work) / 2,
  ];
}

function uniformUnknowns(nail: Point): number[] {
  const [first, second] = solveThreePinStrip(START, nail, END);
  const normal = leftNormal(direction(first.angle));
  const along = direction(second.angle);
  const push = second.curvature ** 2 / 2;
  const force = scale(normal, first.curvatureRate);
  const across = scale(leftNormal(along), second.curvatureRate);
  const force2 = [push * along.x + across.x, push * along.y + across.y];
  return [first.angle, first.length, second.length, force.x, force.y, ...force2];
}

/** Largest Newton step: half a radian and 40% of a length; forces follow. */
const [MAX_TURN, MAX_STRETCH] = [0.5, 0.4];

function limitStep(at: readonly number[], next: readonly number[]): number[] {
  const moves = at.map((value, i) => itemAt(next, i) - value);
  const share = Math.min(
    1,
    MAX_TURN / Math.abs(firstOf(moves)),
    (MAX_STRETCH * itemAt(at, 1)) / Math.abs(itemAt(moves, 1)),
    (MAX_STRETCH * itemAt(at, 2)) / Math.abs(itemAt(moves, 2)),
  );
  return at.map((value, i) => value + share * itemAt(moves, i));
}

/** Newton's method converges in 3 to 6 steps on a stable strip; a last step of 1e-8 leaves about 1e-15. */
const EXACT_NEWTON: NewtonOptions = { stepTolerance: 1e-8, limitStep, maxSteps: 15 };
/** During continuation it is enough to stay near the branch. */
const ROUGH_NEWTON: NewtonOptions = { ...EXACT_NEWTON, stepTolerance: 1e-2 };

/** Each continuation step changes the taper by two fifths, halved down to 1/16 where the strip gives way more. */
const FIRST_STEP = Math.log(1.4);
const MIN_STEP = FIRST_STEP / 16;

export interface TaperedEquilibrium extends NewtonRoot {
  readonly spans: Spans;
}

/**
 * Increases the taper step by step; a step counts only if the strip stays on its branch (the determinant keeps its
 * sign) and presses on the nail. Undefined if it gives way before. @throws Fault as `solveThreePinStrip`
 */
export function solveTapered(nail: Point, ratio: number): TaperedEquilibrium | undefined {
  const uniform = newtonSystem((x) => residual(x, nail, 1), uniformUnknowns(nail), EXACT_NEWTON);
  if (!uniform) return undefined;
  let now: TaperedEquilibrium = { ...uniform, spans: spansFromUnknowns(uniform.solution, nail, 1).spans };
  const goal = Math.abs(Math.log(ratio));
  let [done, stride] = [0, FIRST_STEP];
  while (done < goal) {
    const next = Math.min(done + stride, goal);
    const rest =
      next === goal
        ? solveNearbyTapered(now, nail, ratio)
        : solveNearbyTapered(now, nail, Math.exp(Math.sign(Math.log(ratio)) * next), ROUGH_NEWTON);
    if (rest) [now, done] = [rest, next];
    else if (stride < MIN_STEP) return undefined;
    else stride /= 2;
  }
  return now;
}

/** The equilibrium on the same branch with the nail or the taper changed a little. */
export function solveNearbyTapered(
  near: TaperedEquilibrium,
  nail: Point,
  ratio: number,
  how = EXACT_NEWTON,
): TaperedEquilibrium | undefined {
  const root = newtonSystem((x) => residual(x, nail, ratio), near.solution, how);
  if (root?.determinantSign !== near.determinantSign) return undefined;
  const { spans, atNail } = spansFromUnknowns(root.solution, nail, ratio);
  return pressesOnNail(spans, atNail) ? { ...root, spans } : undefined;
}

/** The strip pushes down on the nail, bends one way only and makes no loop. */
function pressesOnNail([first, second]: Spans, { angle, moment }: TaperedEnd): boolean {
  const push = cross(direction(angle), subtract(second.force, first.force));
  const turned = first.angle - taperedEnd(second).angle;
  return push > 0 && moment < 0 && turned > 0 && turned < 2 * Math.PI;
}
