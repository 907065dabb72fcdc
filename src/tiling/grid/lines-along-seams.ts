import type { TurnedChords } from './row-spans.ts';

/** A line within a pencil's width of a seam is hard to see beside the cut and harder to saw, mm. */
const NEAR_SEAM_MM = 1;

/** A line this much off the direction of a seam is soon clear of it: 1 mm in 10. */
const MAX_SLANT = 0.1;

/** A line at that slant stays so long within a pencil's width of a seam that it crosses, mm. */
const CROSSING_LENGTH_MM = 2 * (NEAR_SEAM_MM / MAX_SLANT);

/** How much line runs along a seam at a place, mm. */
export type LengthAlongSeam = (at: number) => number;

/** For seams that run up the paper, or across it. */
export function lengthAlongSeams({ chords }: TurnedChords, seams: 'up' | 'across'): LengthAlongSeam {
  const bins = new Map<number, number>();
  for (const chord of chords) {
    const [dx, dy] = [chord.to.x - chord.from.x, chord.to.y - chord.from.y];
    const [a, b, length] =
      seams === 'up' ? [chord.from.x, chord.to.x, Math.abs(dy)] : [chord.from.y, chord.to.y, Math.abs(dx)];
    if (Math.abs(b - a) > MAX_SLANT * length) continue;
    const [from, to] = [Math.floor(Math.min(a, b) / NEAR_SEAM_MM), Math.floor(Math.max(a, b) / NEAR_SEAM_MM)];
    const share = length / (to - from + 1);
    for (let bin = from; bin <= to; bin++) bins.set(bin, (bins.get(bin) ?? 0) + share);
  }
  return (at) => {
    const bin = Math.floor(at / NEAR_SEAM_MM);
    const length = (bins.get(bin - 1) ?? 0) + (bins.get(bin) ?? 0) + (bins.get(bin + 1) ?? 0);
    return Math.max(0, length - 1.5 * CROSSING_LENGTH_MM);
  };
}
