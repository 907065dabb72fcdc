import { Bench, type Shape, settle } from './newton-many-pins.ts';
import {
  blend,
  courseOf,
  deepness,
  flat,
  type Pinned,
  shallowShape,
  straightShape,
} from './strip-problem.ts';

/*
 * The strip a maker gets is the one that grows out of the straight strip as the pins are driven home.
 * Newton's method from the shallow shape finds that one while the strip is moderate; deeper strips are
 * grown in steps, each from the one before.
 */

/** Up to this deepness (radians) the shallow start leads to the right strip: by trial on 3000 random sets. */
const DEEPEST_DIRECT = 1.05;
/** Deepness that one growing step may add. */
const STEP = 0.35;
/** The step that Newton's method stops at: its error is then below rounding. */
const EXACT = 1e-9;
/** Good enough to start the next growing step from. */
const PASSING = 1e-4;
const [MOST_DIRECT_STEPS, MOST_GROWING_STEPS] = [12, 7];
/** The limit of a strip that does not stand is told to this share of the whole. */
const FINEST = 1e-9;
/** Spans run before growing gives up, about 1.5 s; a dozen pins at their limit take 5 %. */
const MOST_WORK = 150_000;

/** Where growing ended: at share 1 the strip asked for. */
export interface Grown {
  readonly share: number;
  readonly shape: Shape;
  /** The work ran out before the strip's limit was found. */
  readonly tired: boolean;
}

/** Whether a strip at rest may be accepted. */
export type Accept = (pins: Pinned, shape: Shape) => boolean;

/**
 * The strip at rest over pins, found directly or by growing it out of the straight strip.
 * @param finest how small a step, as a share of the whole, is tried before the strip counts as not standing
 */
export function restingShape(pins: Pinned, finest = FINEST): Grown {
  const course = courseOf(pins);
  const shape = shallowShape(course);
  const deep = deepness(course, shape);
  const bench = new Bench(pins.stations.length);
  if (deep <= DEEPEST_DIRECT && settle(course, shape, bench, EXACT, MOST_DIRECT_STEPS))
    return { share: 1, shape, tired: false };
  const straight = { pins: flat(pins), shape: straightShape(pins.stations.length) };
  return grow(straight, pins, Math.max(2, Math.ceil(deep / STEP)), () => true, finest);
}

/** The strip near one that is known, by Newton's method from that; undefined when it does not settle. */
export function nearbyShape(pins: Pinned, known: Shape): Shape | undefined {
  const shape = known.slice();
  const bench = new Bench(pins.stations.length);
  return settle(courseOf(pins), shape, bench, EXACT, MOST_DIRECT_STEPS) ? shape : undefined;
}

/**
 * Drives the pins from one strip at rest to another in `steps` equal steps, halved where the strip does
 * not follow, each begun where the last two point to.
 */
export function grow(
  from: { readonly pins: Pinned; readonly shape: Shape },
  to: Pinned,
  steps: number,
  accept: Accept = () => true,
  finest = FINEST,
): Grown {
  const count = to.stations.length;
  const bench = new Bench(count);
  let [share, step, work] = [0, 1 / steps, 0];
  let [shape, before, gap] = [from.shape, from.shape, 1];
  while (share < 1) {
    const next = share + step > 1 - finest ? 1 : share + step;
    const pins = blend(from.pins, to, next);
    const trial = shape.map((value, i) => value + ((value - before[i]!) * (next - share)) / gap);
    const done = next === 1 ? EXACT : PASSING;
    const most = next === 1 ? MOST_DIRECT_STEPS : MOST_GROWING_STEPS;
    work += most * count;
    if (settle(courseOf(pins), trial, bench, done, most) && accept(pins, trial)) {
      [before, gap] = [shape, next - share];
      [shape, share] = [trial, next];
      step = Math.min(2 * step, 1 / steps);
    } else step /= 2;
    if (step < finest) return { share, shape, tired: false };
    if (work > MOST_WORK) return { share, shape, tired: true };
  }
  return { share, shape, tired: false };
}
