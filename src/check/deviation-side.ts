import type { Part, PartEdge } from '../part/part.ts';
import { outwardSign } from './design-line.ts';

/** Sawn, an edge has too much wood or too little. Bent, it is too high or too low: no wood is missing. */
export type DeviationSide = 'proud' | 'shy' | 'high' | 'low';

/** By how much the edge is too far out, mm. */
export function deviationSide(
  { laminate }: Pick<Part, 'laminate'>,
  edge: PartEdge,
  proud: number,
): DeviationSide {
  if (!laminate) return proud > 0 ? 'proud' : 'shy';
  return outwardSign(edge) * proud > 0 ? 'high' : 'low';
}
