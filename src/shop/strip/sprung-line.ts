import type { Curve } from '../../curves/curve.ts';
import type { PinForce } from '../../curves/elastica/pin-reactions.ts';
import { type CurvePoint, paramCurve } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { taperedStates } from '../../curves/geometry/pieces/tapered-series.ts';
import { distance, type Point, toPoint } from '../../curves/geometry/point.ts';
import { figuresOf } from '../../curves/measurements.ts';
import type { EndConditions } from '../../job/steps/end-conditions.ts';
import { itemAt } from '../../units/checked.ts';

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

export interface SprungPin extends Omit<PinForce, 'side'>, Pick<WorstBend, 'share'> {
  /** Of the line there, 1/mm. */
  readonly curvature: number;
}

/** An even batten: the reaction of each pin, ends included, is κ′ after the pin less κ′ before it, 1/mm². */
export function sprungLine(
  curve: Curve,
  reactions: readonly number[],
  ends: EndConditions = ['free', 'free'],
): SprungLine {
  if (reactions.length !== curve.pins.length)
    throw new TypeError(`${reactions.length} reactions for ${curve.pins.length} pins.`);
  const places = curve.exact.flatMap((piece) => [0, 1].map(paramCurve(piece)));
  const pins = curve.pins.map((at, i) => {
    const { angle, curvature } = places.reduce((a, b) => (distance(b, at) < distance(a, at) ? b : a));
    return { at, angle, curvature, reaction: itemAt(reactions, i), share: 1 };
  });
  return { ...unpinnedLine(curve), pins, ends };
}

export function unpinnedLine(curve: Curve): SprungLine {
  const { length, tightest } = figuresOf(curve);
  const worst = tightest && { curvature: 1 / tightest.radius, share: 1, at: tightest.at };
  return { length, ...(worst && { worst }), pins: [], ends: ['free', 'free'] };
}

export interface StripSample {
  readonly place: CurvePoint;
  /** 1 for an even batten. */
  readonly thickness: number;
}

/** The batten on a piece, at both ends and evenly between them. */
export function sampleStrip(piece: Piece, steps: number): StripSample[] {
  const at = paramCurve(piece);
  const state = piece.type === 'tapered' ? taperedStates(piece) : undefined;
  return Array.from({ length: steps + 1 }, (_, i) => {
    return { place: at(i / steps), thickness: state ? state(i / steps).thickness : 1 };
  });
}

/** Where a tapered batten is strained most, by samples from its start: where thickness times curvature is greatest. */
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
