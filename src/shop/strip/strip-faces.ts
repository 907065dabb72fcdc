import type { Curve } from '../../curves/curve.ts';
import { toPoint } from '../../curves/geometry/point.ts';
import { fromBaseLine } from '../../part/offsets.ts';
import { firstOf, lastOf } from '../../units/checked.ts';
import { type StripSample, sampleStrip } from './sprung-line.ts';
import type { StripAdvice } from './strip-advice.ts';

export type StripFaces = ReturnType<typeof stripFaces>;

/** Between two samples a batten that does not break strays from its chord by far less than a pencil line. */
const SAMPLES_PER_PIECE = 48;

/** The two long faces of a batten on a run; its ends run straight on, since nothing bends them there. */
export function stripFaces(curve: Curve, { thickness, overhang, traced }: StripAdvice) {
  const sections = curve.exact.flatMap((piece) => sampleStrip(piece, SAMPLES_PER_PIECE));
  const [first, last] = [firstOf(sections), lastOf(sections)];
  const start = first.thickness;
  const lying = [extendStraight(first, -overhang), ...sections, extendStraight(last, overhang)];
  const away = traced === 'left' ? -1 : 1;
  const other = lying.map(({ place, thickness: thick }) =>
    fromBaseLine({ x: 0, y: (away * thickness * thick) / start }, { origin: place, angle: place.angle }),
  );
  return { traced: lying.map(({ place }) => toPoint(place)), other };
}

const extendStraight = ({ place, thickness }: StripSample, by: number): StripSample => ({
  place: { ...place, ...fromBaseLine({ x: by, y: 0 }, { origin: place, angle: place.angle }) },
  thickness,
});
