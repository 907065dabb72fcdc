import { MPA_PER_PSI } from '../../units/unit.ts';

/** A wood in bending: averages of small, clear, straight-grained pieces at 12% moisture. */
export interface Species {
  readonly name: string;
  readonly alsoCalled: readonly string[];
  /** Oven-dry weight over the weight of as much water as the wood is large at 12% moisture (imports: green). */
  readonly specificGravity: number;
  /** Modulus of elasticity as tabulated, MPa, rounded to 100: from a center-loaded beam 14 depths long. */
  readonly moe: number;
  readonly mor: number;
  readonly source: SpeciesSource;
}

export interface SpeciesSource {
  readonly table: '5-3b' | '5-5b';
  /** How its figures came here, from a table in chapter 5 of the Wood Handbook. */
  readonly read: 'in the table' | 'in a copy' | 'partly from memory';
}

/** Woods named after a place keep their capital. */
const PLACE_NAMES = /^(American|Honduran|Sitka)\b/;

export const speciesInSentence = ({ name }: Pick<Species, 'name'>): string =>
  PLACE_NAMES.test(name) ? name : `${name.charAt(0).toLowerCase()}${name.slice(1)}`;

function wood(
  name: string,
  [specificGravity, millionPsiMoe, psiMor]: readonly [number, number, number],
  table: SpeciesSource['table'],
  alsoCalled: readonly string[] = [],
  read: SpeciesSource['read'] = 'in a copy',
): Species {
  const moe = Math.round(millionPsiMoe * 1e4 * MPA_PER_PSI) * 100;
  const mor = Math.round(psiMor * 10 * MPA_PER_PSI) / 10;
  return { name, alsoCalled, specificGravity, moe, mor, source: { table, read } };
}

/**
 * USDA Forest Products Laboratory, Wood Handbook: Wood as an Engineering Material, FPL-GTR-282 (2021), Tables 5-3b
 * (United States) and 5-5b (imports, green volume): specific gravity, MOE in 10⁶ psi, MOR in psi, read in a copy of
 * the tables. White ash is 15 400 in the 2021 edition, 15 000 in earlier ones; shagbark hickory's 20 200 is from
 * memory and agrees with the metric table's 139 000 kPa. Averages, not values to design a structure by.
 */
export const SPECIES: readonly Species[] = [
  wood('White oak', [0.68, 1.78, 15200], '5-3b'),
  wood('Northern red oak', [0.63, 1.82, 14300], '5-3b'),
  wood('Hard maple', [0.63, 1.83, 15800], '5-3b', ['Sugar maple', 'Hard (sugar) maple']),
  wood('Soft maple', [0.54, 1.64, 13400], '5-3b', ['Red maple', 'Soft (red) maple']),
  wood('Black cherry', [0.5, 1.49, 12300], '5-3b', ['American cherry']),
  wood('Black walnut', [0.55, 1.68, 14600], '5-3b', ['American walnut']),
  wood('White ash', [0.6, 1.74, 15400], '5-3b', ['American ash']),
  wood('Yellow birch', [0.62, 2.01, 16600], '5-3b'),
  wood('American beech', [0.64, 1.72, 14900], '5-3b'),
  wood('Shagbark hickory', [0.72, 2.16, 20200], '5-3b', [], 'partly from memory'),
  wood('Yellow-poplar', [0.42, 1.58, 10100], '5-3b', ['Tulipwood', 'Tulip poplar']),
  wood('American basswood', [0.37, 1.46, 8700], '5-3b'),
  wood('Honduran mahogany', [0.45, 1.5, 11500], '5-5b', ['True mahogany', 'Mahogany, true (Honduran)']),
  wood('Teak', [0.55, 1.55, 14600], '5-5b', [], 'in the table'),
  wood('Sitka spruce', [0.4, 1.57, 10200], '5-3b'),
  wood('Coast Douglas-fir', [0.48, 1.95, 12400], '5-3b'),
  wood('Eastern white pine', [0.35, 1.24, 8600], '5-3b'),
  wood('Western redcedar', [0.32, 1.11, 7500], '5-3b', ['Western red cedar']),
  wood('Port-Orford cedar', [0.43, 1.7, 12700], '5-3b'),
  wood('Longleaf pine', [0.59, 1.98, 14500], '5-3b', ['Longleaf southern pine', 'Longleaf yellow pine']),
  wood('Rock elm', [0.63, 1.54, 14800], '5-3b'),
  wood('Black locust', [0.69, 2.05, 19400], '5-3b'),
  wood('Sweet birch', [0.65, 2.17, 16900], '5-3b'),
  wood('Red alder', [0.41, 1.38, 9800], '5-3b'),
];
