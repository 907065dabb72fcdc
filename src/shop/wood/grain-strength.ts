/** A share known only between two bounds. */
export interface ShareRange {
  readonly least: number;
  readonly most: number;
}

/** Published from 0.04 to 0.10, by wood and by author (Wood Handbook, chapter on mechanical properties; from memory). */
const STRENGTH_ACROSS_GRAIN: ShareRange = { least: 0.04, most: 0.1 };

/**
 * The share of bending strength left when the grain runs out of a batten at an angle (radians, 0 to π/2): Hankinson's
 * formula N = PQ/(P sin²θ + Q cos²θ), exponent 2.
 * It is a range because Q/P is one: at 1 in 10, 0.81 to 0.92.
 */
export function remainingStrength(slope: number): ShareRange {
  const left = (across: number): number => across / (Math.sin(slope) ** 2 + across * Math.cos(slope) ** 2);
  return { least: left(STRENGTH_ACROSS_GRAIN.least), most: left(STRENGTH_ACROSS_GRAIN.most) };
}
