import { itemAt, lastOf, neighbors } from '../../units/checked.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import type { Point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';

/** Pins as heights over a base line, on which they advance. */
export interface PinHeights {
  /** Along the base line, mm, rising. */
  readonly along: readonly number[];
  /** Square off the base line to the left, mm. */
  readonly heights: readonly number[];
  /** What a move square off the chord by 1 mm adds to each height. */
  readonly shares: readonly number[];
}

/** Nearer an end of a half circle a move square off the chord runs along the base line and says nothing. */
const LEAST_SHARE = 0.3;
/** Steps to the arc that leaves the least heights. It only has to be near them: four digits come in three on an arch. */
const ARC_STEPS = 6;

/** Over the chord, where waves and parabolas are even; and over an arc, where deep arches and ellipses are. */
export function pinFrames(pins: readonly Point[]): PinHeights[] {
  const frame = new ChordFrame(itemAt(pins, 0), lastOf(pins));
  const [along, heights] = [pins.map(frame.station), pins.map(frame.height)];
  const overChord = { along, heights, shares: pins.map(() => 1) };
  return [overChord, overArc(overChord)].filter(({ along, heights }) => {
    const advances = neighbors(along).every(([a, b]) => b - a > JOIN_MM);
    return advances && heights.every(Number.isFinite);
  });
}

function overArc(overChord: PinHeights): PinHeights {
  const chord = lastOf(overChord.along) - itemAt(overChord.along, 0);
  const bulge = overChord.along.map((x) => 4 * (x / chord) * (1 - x / chord));
  const weight = bulge.reduce((sum, b) => sum + b ** 2, 0);
  const bulgeOf = (heights: readonly number[]): number =>
    heights.reduce((sum, y, i) => sum + y * itemAt(bulge, i), 0) / weight;
  let rise = bulgeOf(overChord.heights);
  for (let i = 1; i < ARC_STEPS; i++) rise += bulgeOf(heightsOverArc(overChord, chord, rise).heights);
  return heightsOverArc(overChord, chord, rise);
}

function heightsOverArc({ along, heights, shares }: PinHeights, chord: number, rise: number): PinHeights {
  if (Math.abs(rise) < JOIN_MM) return { along, heights, shares };
  const side = Math.sign(rise);
  const radius = (chord ** 2 / 4 + rise ** 2) / (2 * Math.abs(rise));
  const places = along.map((x, i) => {
    const [out, up] = [x - chord / 2, side * (itemAt(heights, i) - rise) + radius];
    return { angle: Math.atan2(out, up), height: side * (Math.hypot(out, up) - radius) };
  });
  return {
    along: places.map(({ angle }) => angle * radius),
    heights: places.map(({ height }) => height),
    shares: places.map(({ angle }) => Math.max(Math.cos(angle), LEAST_SHARE)),
  };
}
