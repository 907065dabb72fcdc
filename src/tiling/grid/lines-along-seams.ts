import type { TurnedChords } from './row-spans.ts';

/** A line within a pencil's width of a seam, mm, is hard to see beside the cut and harder to saw. */
const NEAR_SEAM_MM = 1;

/** A line this much off the direction of a seam is soon clear of it: 1 mm in 10. */
const MAX_SLANT = 0.1;

/** As far as a line at that slant stays within a pencil of a seam it crosses, mm; longer matters. */
const CROSSING_LENGTH_MM = 2 * (NEAR_SEAM_MM / MAX_SLANT);

/** How much of the lines runs along any seam: ask with where the seam stands, mm. */
export type LengthAlongSeam = (at: number) => number;

/** For seams that run up the paper ('up') or across it. */
export function lengthAlongSeams({ ends }: TurnedChords, seams: 'up' | 'across'): LengthAlongSeam {
  const offset = seams === 'up' ? 0 : 1;
  const bins = new Map<number, number>();
  for (let i = 0; i < ends.length; i += 4) {
    const [a, b] = [ends[i + offset]!, ends[i + 2 + offset]!];
    const length = Math.abs(ends[i + 3 - offset]! - ends[i + 1 - offset]!);
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
