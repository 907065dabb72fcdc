import type { Curve } from '../../curves/curve.ts';
import { along, type Place } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { taperedStates } from '../../curves/geometry/pieces/tapered-series.ts';
import { add, direction, leftOf, type Point, scale } from '../../curves/geometry/point.ts';
import type { StripAdvice } from './strip-advice.ts';

/** The two long faces of a sprung strip, from its start to its end, mm. */
export interface StripFaces {
  /** The face on the line, that the pencil follows. */
  readonly traced: readonly Point[];
  readonly other: readonly Point[];
}

/** Places a piece: between two of them a strip that does not break strays from its chord by far less than a pencil line. */
const PLACES = 48;

/** A place of the line and how thick the strip is there, mm. */
interface Section {
  readonly place: Place;
  readonly thick: number;
}

/** How a strip lies on a run, its ends straight on beyond it: nothing bends it there. */
export function stripFaces(curve: Curve, { thickness, overhang, traced }: StripAdvice): StripFaces {
  const sections = curve.exact.flatMap(sectionsOf);
  const [first, last] = [sections[0]!, sections.at(-1)!];
  const start = first.thick;
  const lying = [beyond(first, -overhang), ...sections, beyond(last, overhang)];
  const away = traced === 'left' ? -1 : 1;
  return {
    traced: lying.map(({ place: { x, y } }) => ({ x, y })),
    other: lying.map(({ place, thick }) =>
      add(place, scale(leftOf(direction(place.angle)), (away * thickness * thick) / start)),
    ),
  };
}

function sectionsOf(piece: Piece): Section[] {
  const at = along(piece);
  const thickAt = piece.type === 'tapered' ? taperedStates(piece) : undefined;
  return Array.from({ length: PLACES + 1 }, (_, i) => {
    const u = i / PLACES;
    return { place: at(u), thick: thickAt ? thickAt(u).thickness : 1 };
  });
}

const beyond = ({ place, thick }: Section, by: number): Section => ({
  place: { ...place, ...add(place, scale(direction(place.angle), by)) },
  thick,
});
