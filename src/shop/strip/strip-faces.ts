import type { Curve } from '../../curves/curve.ts';
import { type CurvePoint, paramCurve } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { taperedStates } from '../../curves/geometry/pieces/tapered-series.ts';
import { add, direction, leftNormal, type Point, scale } from '../../curves/geometry/point.ts';
import { firstOf, lastOf } from '../../units/checked.ts';
import type { StripAdvice } from './strip-advice.ts';

/** The two long faces of a sprung batten, from its start to its end, mm. */
export interface StripFaces {
  /** The face on the line, that the pencil follows. */
  readonly traced: readonly Point[];
  readonly other: readonly Point[];
}

/** Between two samples a batten that does not break strays from its chord by far less than a pencil line. */
const SAMPLES_PER_PIECE = 48;

interface StripSample {
  readonly place: CurvePoint;
  readonly thick: number;
}

/** How a batten lies on a run; its ends run straight on, since nothing bends them there. */
export function stripFaces(curve: Curve, { thickness, overhang, traced }: StripAdvice): StripFaces {
  const sections = curve.exact.flatMap(sampleStrip);
  const [first, last] = [firstOf(sections), lastOf(sections)];
  const start = first.thick;
  const lying = [extendStraight(first, -overhang), ...sections, extendStraight(last, overhang)];
  const away = traced === 'left' ? -1 : 1;
  return {
    traced: lying.map(({ place: { x, y } }) => ({ x, y })),
    other: lying.map(({ place, thick }) =>
      add(place, scale(leftNormal(direction(place.angle)), (away * thickness * thick) / start)),
    ),
  };
}

function sampleStrip(piece: Piece): StripSample[] {
  const at = paramCurve(piece);
  const thickAt = piece.type === 'tapered' ? taperedStates(piece) : undefined;
  return Array.from({ length: SAMPLES_PER_PIECE + 1 }, (_, i) => {
    const u = i / SAMPLES_PER_PIECE;
    return { place: at(u), thick: thickAt ? thickAt(u).thickness : 1 };
  });
}

const extendStraight = ({ place, thick }: StripSample, by: number): StripSample => ({
  place: { ...place, ...add(place, scale(direction(place.angle), by)) },
  thick,
});
