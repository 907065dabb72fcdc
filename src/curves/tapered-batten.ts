import { Fault, type ShowLength } from '../units/fault.ts';
import type { BattenBy } from './batten.ts';
import type { Curve } from './curve.ts';
import { freeRiseLimit } from './free-batten.ts';
import { curveOf, mustDiffer } from './line.ts';
import { newton } from './newton.ts';
import type { TaperedSegment } from './piece.ts';
import {
  add,
  angleOf,
  cross,
  direction,
  distance,
  dot,
  leftOf,
  type Point,
  scale,
  subtract,
} from './point.ts';
import { rootBetween } from './search.ts';
import { taperedStates } from './tapered.ts';
import { END, type Rest, restNear, restTapered, START } from './tapered-rest.ts';
import { JOIN_MM } from './tolerance.ts';

/** Thickness of a strip at its two ends, mm, running evenly between them. */
export interface Taper {
  readonly from: number;
  readonly to: number;
}

export type TaperedEnd = 'free' | 'held';

/**
 * A strip tapered beyond this breaks as a feather edge before it bends: its thin end is 1/125 as stiff
 * as its thick one.
 */
const MOST_TAPER = 5;

/**
 * The curve of a springy strip planed to a taper, sprung over a pin at each end and one nail between.
 *
 * Modelled as the least of ½∫t³κ² ds over the shapes through the pins, with the length of the strip and
 * the place of the nail along it free while the taper runs always from `from` at the first end to `to`
 * at the last. No such strip rests on three frictionless pins alone: it would creep thick end first, so
 * that friction or a stop must hold it endwise. A strip held lengthwise at an end instead agrees when
 * shallow and lies 0.2 % of the rise away at a rise of 0.2 of the chord (0.5 % at 0.3).
 *
 * By `nail` or by `apex` as for `batten`; the higher the strip, the nearer its apex to the thin end. Exact to 1e-11 of the chord. Bending, strain and the pushes of
 * the pins: `taperedStates` and `pinPushes` of the exact pieces.
 * @throws Fault `curve.same-point`, `curve.not-finite`, `batten.taper`, `batten.taper-held`,
 *   `batten.out-of-order`, `batten.too-high`, `batten.no-such-apex`
 */
export function taperedBatten(
  from: Point,
  to: Point,
  by: BattenBy,
  strip: Taper,
  ends: readonly [TaperedEnd, TaperedEnd] = ['free', 'free'],
): Curve {
  const bent = 'nail' in by ? by.nail : by.apex;
  mustDiffer(from, to, 'the two ends of the batten');
  mustDiffer(from, bent, 'the start of the batten and the point between');
  mustDiffer(bent, to, 'the point between and the end of the batten');
  mustTaper(strip, ends);
  const frame = new ChordFrame(from, to, bent);
  const asked = frame.local(bent);
  const ratio = strip.to / strip.from;
  const straight = asked.y * distance(from, to) < JOIN_MM;
  if (straight && 'apex' in by) throw noApex(asked, frame, () => 'Give it an offset, or use a line.');
  const spans = straight
    ? straightSpans(asked, ratio)
    : ('nail' in by ? restOn(asked, ratio, frame) : restWithApex(asked, ratio, frame)).spans;
  const exact = spans.map((span) => frame.span(span, strip.from));
  return curveOf('batten', exact, { from, to }, [from, exact[1]!.from, to]);
}

function mustTaper({ from, to }: Taper, ends: readonly [TaperedEnd, TaperedEnd]): void {
  if (ends.includes('held'))
    throw new Fault(
      'batten.taper-held',
      'a tapered strip is drawn with free ends only. Set both ends free, or make the strip one thickness.',
    );
  if (!(from > 0 && to > 0 && Number.isFinite(from + to)))
    throw new Fault(
      'batten.taper',
      'a strip must have some thickness at both ends. Give two lengths over 0.',
    );
  if (Math.max(from / to, to / from) > MOST_TAPER)
    throw new Fault(
      'batten.taper',
      (mm) =>
        `a strip from ${mm(from)} to ${mm(to)} thick tapers too much. ` +
        `Make its thin end ${mm(Math.max(from, to) / MOST_TAPER)} or thicker.`,
    );
}

/** The strip's own measure: chord 1 from the start along x, the bend upwards. */
class ChordFrame {
  private readonly angle: number;
  private readonly chord: number;
  private readonly side: number;
  private readonly along: Point;
  private readonly across: Point;

  constructor(
    private readonly from: Point,
    to: Point,
    bent: Point,
  ) {
    this.angle = angleOf(from, to);
    this.chord = distance(from, to);
    this.along = direction(this.angle);
    this.side = cross(this.along, subtract(bent, from)) < 0 ? -1 : 1;
    this.across = scale(leftOf(this.along), this.side);
  }

  local(p: Point): Point {
    const out = scale(subtract(p, this.from), 1 / this.chord);
    return { x: dot(out, this.along), y: dot(out, this.across) };
  }

  private turned = ({ x, y }: Point): Point => add(scale(this.along, x), scale(this.across, y));
  place = (p: Point): Point => add(this.from, scale(this.turned(p), this.chord));
  rise = ({ y }: Point): number => y * this.chord;

  span(span: TaperedSegment, thick: number): TaperedSegment {
    const { chord, side } = this;
    const stiff = thick ** 3;
    return {
      type: 'tapered',
      from: this.place(span.from),
      angle: this.angle + side * span.angle,
      moment: (side * span.moment * stiff) / chord,
      force: scale(this.turned(span.force), stiff / chord ** 2),
      thickness: [span.thickness[0] * thick, span.thickness[1] * thick],
      length: span.length * chord,
    };
  }
}

function straightSpans(nail: Point, ratio: number): TaperedSegment[] {
  const flat = { type: 'tapered', angle: 0, moment: 0, force: START } as const;
  const middle = 1 + (ratio - 1) * nail.x;
  return [
    { ...flat, from: START, thickness: [1, middle], length: nail.x },
    { ...flat, from: nail, thickness: [middle, ratio], length: 1 - nail.x },
  ];
}

function restOn(nail: Point, ratio: number, frame: ChordFrame): Rest {
  if (!(nail.x > 0 && nail.x < 1))
    throw new Fault(
      'batten.out-of-order',
      (mm) =>
        `the nail at station ${mm(frame.place(nail).x)} does not stand between the strip's ends. ` +
        `Put it between ${mm(frame.place(START).x)} and ${mm(frame.place(END).x)}.`,
    );
  const rest = nail.y < freeRiseLimit(nail.x) ? restTapered(nail, ratio) : undefined;
  if (rest) return rest;
  const limit = highestNail(nail.x, ratio);
  throw new Fault(
    'batten.too-high',
    (mm) =>
      `a strip tapered like this slips off a nail ${mm(frame.rise(nail))} off its chord at station ${mm(frame.place(nail).x)}: ` +
      `it holds up to ${mm(frame.rise({ x: 0, y: limit }))} there. Lower the nail, or taper the strip less.`,
  );
}

/** The climb to the highest nail starts at this share of what a uniform strip stands, and goes on by it. */
const CLIMB = 1 / 8;
/** The highest nail is told to 1 ‰ of that: a figure to keep well below. */
const CLIMB_DONE = 1e-3;

/** How high a nail can stand at a station, per chord; never above the uniform strip's limit. */
function highestNail(x: number, ratio: number): number {
  const top = freeRiseLimit(x);
  let share = CLIMB;
  let rest = restTapered({ x, y: share * top }, ratio);
  for (let stride = CLIMB; rest && stride > CLIMB_DONE; ) {
    const higher: number = share + stride;
    const next: Rest | undefined = higher < 1 ? restNear(rest, { x, y: higher * top }, ratio) : undefined;
    if (next) [rest, share] = [next, higher];
    else stride /= 2;
  }
  return rest ? share * top : 0;
}

/** Newton steps for the nail, and the share of the chord within which the apex is where it was asked. */
const [NAIL_STEPS, NAIL_DONE] = [15, 1e-9];
/** When the nail is not found at once the rise is walked up in so many steps. */
const RISES = 4;

/** The strip whose apex is where it is asked, by Newton's method on the nail. */
function restWithApex(apex: Point, ratio: number, frame: ChordFrame): Rest {
  const start = { x: Math.min(Math.max(apex.x, 0.1), 0.9), y: apex.y };
  const rest = searchNail(start, apex, ratio) ?? walkUp(start, apex, ratio);
  if (rest) return rest;
  const [low, high] = [NEAR_END, 1 - NEAR_END].map((x) => shallowApex(x, ratio)) as [number, number];
  const station = (x: number): number => frame.place({ x, y: 0 }).x;
  throw noApex(
    apex,
    frame,
    (mm) =>
      `A shallow strip can have it from ${mm(station(low))} to ${mm(station(high))}, a higher one nearer to its thin end.`,
  );
}

/** Nails driven so near to an end, as a share of the chord, show how far the apex can be moved. */
const NEAR_END = 0.02;

/** The apex of a strip so shallow, per chord, that it no longer counts. */
const shallowApex = (x: number, ratio: number): number => {
  const rest = restTapered({ x, y: 1e-4 }, ratio);
  return rest ? apexOfSpans(rest).x : x;
};

interface Found extends Rest {
  readonly nail: Point;
}

function walkUp(start: Point, apex: Point, ratio: number): Found | undefined {
  let found: Found | undefined;
  for (let i = 1; i <= RISES; i++) {
    const share = i / RISES;
    const from = found
      ? { x: found.nail.x, y: (found.nail.y * i) / (i - 1) }
      : { ...start, y: share * start.y };
    found = searchNail(from, { ...apex, y: share * apex.y }, ratio);
    if (!found) return undefined;
  }
  return found;
}

function searchNail(start: Point, apex: Point, ratio: number): Found | undefined {
  let rest = stands(start) ? restTapered(start, ratio) : undefined;
  const off = ([x, y]: readonly number[]): readonly number[] => {
    const nail = { x: x!, y: y! };
    rest &&= restNear(rest, nail, ratio);
    if (!rest) return [Number.NaN, Number.NaN];
    const got = apexOfSpans(rest);
    return [got.x - apex.x, got.y - apex.y];
  };
  // Never past half the way to an end, nor to more than half as high again, in one step.
  const limit = ([x, y]: readonly number[], [x2, y2]: readonly number[]): readonly number[] => [
    Math.min(Math.max(x2!, x! / 2), (x! + 1) / 2),
    Math.min(Math.max(y2!, y! / 2), y! * 1.5),
  ];
  const root = newton(off, [start.x, start.y], { done: NAIL_DONE, limit, steps: NAIL_STEPS });
  const nail = root && { x: root.at[0]!, y: root.at[1]! };
  const found = nail && rest && restNear(rest, nail, ratio);
  return found && { ...found, nail };
}

const stands = ({ x, y }: Point): boolean => x > 0 && x < 1 && y > 0 && y < freeRiseLimit(x);

/** Where the strip runs along the chord; it turns one way only, so that there is one such place. */
function apexOfSpans({ spans: [first, second] }: Rest): Point {
  const atNail = second.angle;
  const state = taperedStates(atNail > 0 ? second : first);
  const u = rootBetween((v) => state(v).angle, 0, 1) ?? (atNail > 0 ? 1 : 0);
  return state(u);
}

const noApex = (apex: Point, frame: ChordFrame, cure: (length: ShowLength) => string): Fault =>
  new Fault(
    'batten.no-such-apex',
    (mm) =>
      `no nail gives this tapered strip an apex ${mm(frame.rise(apex))} off its chord at station ${mm(frame.place(apex).x)}. ${cure(mm)}`,
  );
