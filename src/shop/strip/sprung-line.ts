import type { Curve } from '../../curves/curve.ts';
import { type CurvePoint, paramCurve } from '../../curves/geometry/evaluate.ts';
import { distance, type Point } from '../../curves/geometry/point.ts';
import { figuresOf } from '../../curves/measurements.ts';
import type { EndConditions } from '../../job/job.ts';

/** One run of the fair line as a strip is sprung to it. */
export interface SprungLine {
  /** Along the line, mm. */
  readonly length: number;
  /** Where it bends a strip most; absent for a straight line. */
  readonly worst?: WorstBend;
  /** From start to end, both ends included; empty for a line that no pins hold. */
  readonly pins: readonly SprungPin[];
  readonly ends: EndConditions;
}

export interface WorstBend {
  /** The line's curvature there, 1/mm, > 0, times `share`. */
  readonly curvature: number;
  /** Thickness there over the thickness at the start: 1 for a uniform strip. */
  readonly share: number;
  readonly at: Point;
}

export interface SprungPin {
  /** Where the strip touches the pin, on the line. */
  readonly at: Point;
  /** The line's direction there, radians counter-clockwise from the reference line. */
  readonly angle: number;
  /** Force on a strip of EI = 1, 1/mm², positive to the strip's left, going from start to end. */
  readonly reaction: number;
  /** Thickness here over the thickness at the start: 1 for a uniform strip. */
  readonly share: number;
}

/**
 * A uniform strip sprung to a run. One reaction a pin, the ends included: κ′ after the pin less κ′ before
 * it, in 1/mm². No reactions for a run without pins.
 *
 * @throws TypeError when reactions and pins differ in number: a failure of the program
 */
export function sprungLine(
  curve: Curve,
  reactions: readonly number[],
  ends: EndConditions = ['free', 'free'],
): SprungLine {
  if (reactions.length !== curve.pins.length)
    throw new TypeError(`${reactions.length} reactions for ${curve.pins.length} pins.`);
  const { length, tightest } = figuresOf(curve);
  return {
    length,
    ...(tightest && { worst: { curvature: 1 / tightest.radius, share: 1, at: tightest.at } }),
    pins: curve.pins.map((at, i) => ({
      at,
      angle: directionAtPin(curve, at),
      reaction: reactions[i]!,
      share: 1,
    })),
    ends,
  };
}

/** The run's direction at a pin: pieces meet at pins. */
function directionAtPin({ exact }: Curve, pin: Point): number {
  const joins = exact.flatMap((piece): CurvePoint[] => [0, 1].map(paramCurve(piece)));
  return joins.reduce((a, b) => (distance(b, pin) < distance(a, pin) ? b : a)).angle;
}

/** The strip at one place along its length. */
export interface TaperSample {
  /** mm, > 0. */
  readonly thickness: number;
  /** 1/mm, of either sign. */
  readonly curvature: number;
  readonly at: Point;
}

/**
 * Where a tapered strip is strained most: not at the tightest place but where thickness times curvature is
 * greatest. Samples run from the start, the thickness at the first being the strip's; absent when all is straight.
 */
export function worstTaperBend(samples: readonly TaperSample[]): WorstBend | undefined {
  const start = samples[0]?.thickness ?? 1;
  let worst: WorstBend | undefined;
  for (const { thickness, curvature, at } of samples) {
    const share = thickness / start;
    const sharpness = Math.abs(curvature) * share;
    if (sharpness > (worst?.curvature ?? 0)) worst = { curvature: sharpness, share, at };
  }
  return worst;
}
