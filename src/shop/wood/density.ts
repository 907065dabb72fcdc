import { MM3_PER_M3 } from '../../units/unit.ts';
import type { Species } from './species.ts';

/** Water, kg/m³, and the moisture that the figures of the woods stand for: indoor furniture has 6 to 12 %. */
const WATER_DENSITY = 1000;
const MOISTURE = 0.12;
/** Wood shrinks below 30 % moisture; this share of it is gone at 12 %. */
const SHRINKAGE_SHARE = (0.3 - MOISTURE) / 0.3;

/**
 * Kilograms in a cubic metre at 12 % moisture: the specific gravity on the volume at 12 %, and the water in the wood
 * (Wood Handbook, chapter on physical properties). An import's is on green volume (Table 5-5b), which shrinks by
 * 0.265 × its specific gravity until oven dry (chapter 4, from memory).
 */
export function densityOf({ specificGravity: g, source }: Species): number {
  const dried = source.table === '5-5b' ? g / (1 - 0.265 * SHRINKAGE_SHARE * g) : g;
  return WATER_DENSITY * dried * (1 + MOISTURE);
}

/** kg of so many mm³. */
export const massOf = (volume: number, species: Species): number =>
  (volume / MM3_PER_M3) * densityOf(species);
