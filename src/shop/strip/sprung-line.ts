import type { Curve } from '../../curves/curve.ts';
import { type CurvePoint, paramCurve } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { taperedStates } from '../../curves/geometry/pieces/tapered-series.ts';
import { distance, type Point, toPoint } from '../../curves/geometry/point.ts';
import { figuresOf } from '../../curves/measurements.ts';
import type { EndConditions } from '../../job/steps/end-conditions.ts';
import { itemAt } from '../../units/checked.ts';

/** One run of the fair line as a batten is sprung to it. */
export interface SprungLine {
  readonly length: number;
  readonly worst?: WorstBend;
  /** From start to end, both ends included; empty for a line that no pins hold. */
  readonly pins: readonly SprungPin[];
  readonly ends: EndConditions;
}

export interface WorstBend {
  /** The line's curvature there, 1/mm, > 0, times `share`. */
  readonly curvature: number;
  /** Thickness there over the thickness at the start: 1 for an even batten. */
  readonly share: number;
  readonly at: Point;
}

export interface SprungPin {
  readonly at: Point;
  /** The line's direction there, radians counter-clockwise from the reference line. */
  readonly angle: number;
  /** Force on a batten of EI = 1, 1/mm², positive to the batten's left, going from start to end. */
  readonly reaction: number;
  readonly share: number;
}

/**
 * An even batten sprung to a run.
 * @param reactions of the pins, ends included, κ′ after the pin less κ′ before it, 1/mm²; none for a run without pins
 * @throws TypeError when reactions and pins differ in number: a bug
 */
export function sprungLine(
  curve: Curve,
  reactions: readonly number[],
  ends: EndConditions = ['free', 'free'],
): SprungLine {
  if (reactions.length !== curve.pins.length)
    throw new TypeError(`${reactions.length} reactions for ${curve.pins.length} pins.`);
  const pins = curve.pins.map((at, i) => {
    return { at, angle: directionAtPin(curve, at), reaction: itemAt(reactions, i), share: 1 };
  });
  return { ...unpinnedLine(curve), pins, ends };
}

/** An even batten held to a run by no pins. */
export function unpinnedLine(curve: Curve): SprungLine {
  const { length, tightest } = figuresOf(curve);
  const worst = tightest && { curvature: 1 / tightest.radius, share: 1, at: tightest.at };
  return { length, ...(worst && { worst }), pins: [], ends: ['free', 'free'] };
}

function directionAtPin({ exact }: Curve, pin: Point): number {
  const joins = exact.flatMap((piece): CurvePoint[] => [0, 1].map(paramCurve(piece)));
  return joins.reduce((a, b) => (distance(b, pin) < distance(a, pin) ? b : a)).angle;
}

/** The batten at one place of its line; the thickness of an even one counts as 1. */
export interface StripSample {
  readonly place: CurvePoint;
  readonly thickness: number;
}

/** The batten on a piece, at both ends and evenly between them. */
export function sampleStrip(piece: Piece, steps: number): StripSample[] {
  const at = paramCurve(piece);
  const state = piece.type === 'tapered' ? taperedStates(piece) : undefined;
  return Array.from({ length: steps + 1 }, (_, i) => ({
    place: at(i / steps),
    thickness: state ? state(i / steps).thickness : 1,
  }));
}

/**
 * Where a tapered batten is strained most: where thickness times curvature is greatest.
 * @param samples from the start, where the thickness is the batten's
 */
export function worstTaperBend(samples: readonly StripSample[]): WorstBend | undefined {
  const start = samples[0]?.thickness ?? 1;
  let worst: WorstBend | undefined;
  for (const { thickness, place } of samples) {
    const share = thickness / start;
    const sharpness = Math.abs(place.curvature) * share;
    if (sharpness > (worst?.curvature ?? 0)) worst = { curvature: sharpness, share, at: toPoint(place) };
  }
  return worst;
}
