import { firstOf, itemAt } from '../../units/checked.ts';
import { Fault, type ShowLength } from '../../units/fault.ts';
import { freeRiseLimit } from '../elastica/three-pin-closed-form.ts';
import { taperedStates } from '../geometry/pieces/tapered-series.ts';
import { type Point, point } from '../geometry/point.ts';
import { newtonSystem } from '../numeric/newton.ts';
import { rootBetween } from '../numeric/roots-and-minima.ts';
import { solveNearbyTapered, solveTapered, type TaperedEquilibrium } from './tapered-equilibrium.ts';
import type { UnitFrame } from './unit-frame.ts';

/** Newton steps for the nail, and the last of them as a share of the chord. */
const [NAIL_STEPS, NAIL_TOLERANCE] = [15, 1e-9];
/** Steps in which the rise is increased where the nail is not found at once. */
const RISES = 4;

/** The strip with its apex there, by Newton's method on the nail. */
export function solveTaperedApex(apex: Point, ratio: number, frame: UnitFrame): TaperedEquilibrium {
  const start = { x: Math.min(Math.max(apex.x, 0.1), 0.9), y: apex.y };
  const rest = newtonNail(start, apex, ratio) ?? continueRise(start, apex, ratio);
  if (rest) return rest;
  const [low, high] = [NEAR_END, 1 - NEAR_END].map((x) => shallowApex(x, ratio)) as [number, number];
  const station = (x: number): number => frame.toWorld({ x, y: 0 }).x;
  const cure = (mm: ShowLength): string =>
    `A shallow one can have it from station ${mm(station(low))} to ${mm(station(high))}. Move a higher apex toward the thin end.`;
  throw noApexFault(apex, frame, cure);
}

/** Nails this near to an end, as a share of the chord, show how far the apex can be moved. */
const NEAR_END = 0.02;

/** The station of the apex over a nail so low, 1e-4 of the chord, that the strip is as good as linear. */
const shallowApex = (x: number, ratio: number): number => {
  const rest = solveTapered({ x, y: 1e-4 }, ratio);
  return rest ? apexOfSpans(rest).x : x;
};

interface NailEquilibrium extends TaperedEquilibrium {
  readonly nail: Point;
}

function continueRise(start: Point, apex: Point, ratio: number): NailEquilibrium | undefined {
  let found: NailEquilibrium | undefined;
  for (let i = 1; i <= RISES; i++) {
    const share = i / RISES;
    const from = found ? point(found.nail.x, (found.nail.y * i) / (i - 1)) : point(start.x, share * start.y);
    found = newtonNail(from, { ...apex, y: share * apex.y }, ratio);
    if (!found) return undefined;
  }
  return found;
}

function newtonNail(start: Point, apex: Point, ratio: number): NailEquilibrium | undefined {
  let rest = isFeasibleNail(start) ? solveTapered(start, ratio) : undefined;
  const off = (nail: readonly number[]): readonly number[] => {
    rest &&= solveNearbyTapered(rest, toNail(nail), ratio);
    if (!rest) return [Number.NaN, Number.NaN];
    const got = apexOfSpans(rest);
    return [got.x - apex.x, got.y - apex.y];
  };
  // At most halfway to an end, and at most half as high again, in one step.
  const limitStep = (at: readonly number[], next: readonly number[]): readonly number[] => {
    const [from, to] = [toNail(at), toNail(next)];
    const x = Math.min(Math.max(to.x, from.x / 2), (from.x + 1) / 2);
    return [x, Math.min(Math.max(to.y, from.y / 2), from.y * 1.5)];
  };
  const how = { stepTolerance: NAIL_TOLERANCE, limitStep, maxSteps: NAIL_STEPS };
  const root = newtonSystem(off, [start.x, start.y], how);
  const nail = root && toNail(root.solution);
  const found = nail && rest && solveNearbyTapered(rest, nail, ratio);
  return found && { ...found, nail };
}

const toNail = (unknowns: readonly number[]): Point => point(firstOf(unknowns), itemAt(unknowns, 1));
const isFeasibleNail = ({ x, y }: Point): boolean => x > 0 && x < 1 && y > 0 && y < freeRiseLimit(x);

/** Where the strip is parallel to the chord; it turns one way only, so there is one such place. */
function apexOfSpans({ spans: [first, second] }: TaperedEquilibrium): Point {
  const atNail = second.angle;
  const state = taperedStates(atNail > 0 ? second : first);
  const u = rootBetween((v) => state(v).angle, 0, 1) ?? (atNail > 0 ? 1 : 0);
  return state(u);
}

export const noApexFault = (apex: Point, frame: UnitFrame, cure: (length: ShowLength) => string): Fault =>
  new Fault(
    'batten.no-such-apex',
    (mm) =>
      `this tapered batten cannot have an apex ${mm(apex.y * frame.length)} off its chord at station ${mm(frame.toWorld(apex).x)}. ${cure(mm)}`,
  );
