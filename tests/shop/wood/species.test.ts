import { expect, test } from 'vitest';
import { breakingStrain } from '../../../src/shop/wood/bending.ts';
import { SPECIES } from '../../../src/shop/wood/species.ts';

/**
 * USDA Wood Handbook, FPL-GTR-282 (2021), Tables 5-3b and 5-5b, 10⁶ psi and psi turned into MPa by
 * 1 psi = 6.894757e-3 MPa, the modulus of elasticity to 100 MPa as the metric table has it; MOR/MOE in %
 * by division of the psi columns.
 */
const HANDBOOK: readonly (readonly [string, number, number, number, number])[] = [
  ['White oak', 0.68, 12300, 104.8, 0.854],
  ['Northern red oak', 0.63, 12500, 98.6, 0.786],
  ['Hard maple', 0.63, 12600, 108.9, 0.863],
  ['Soft maple', 0.54, 11300, 92.4, 0.817],
  ['Black cherry', 0.5, 10300, 84.8, 0.826],
  ['Black walnut', 0.55, 11600, 100.7, 0.869],
  ['White ash', 0.6, 12000, 106.2, 0.885],
  ['Yellow birch', 0.62, 13900, 114.5, 0.826],
  ['American beech', 0.64, 11900, 102.7, 0.866],
  ['Shagbark hickory', 0.72, 14900, 139.3, 0.935],
  ['Yellow-poplar', 0.42, 10900, 69.6, 0.639],
  ['American basswood', 0.37, 10100, 60, 0.596],
  ['Honduran mahogany', 0.45, 10300, 79.3, 0.767],
  ['Teak', 0.55, 10700, 100.7, 0.942],
  ['Sitka spruce', 0.4, 10800, 70.3, 0.65],
  ['Coast Douglas-fir', 0.48, 13400, 85.5, 0.636],
  ['Eastern white pine', 0.35, 8500, 59.3, 0.694],
  ['Western redcedar', 0.32, 7700, 51.7, 0.676],
  ['Port-Orford cedar', 0.43, 11700, 87.6, 0.747],
  ['Longleaf pine', 0.59, 13700, 100, 0.732],
  ['Rock elm', 0.63, 10600, 102, 0.961],
  ['Black locust', 0.69, 14100, 133.8, 0.946],
  ['Sweet birch', 0.65, 15000, 116.5, 0.779],
  ['Red alder', 0.41, 9500, 67.6, 0.71],
];

test('SPECIES has the woods of the table, in its order', () => {
  expect(SPECIES.map(({ name }) => name)).toEqual(HANDBOOK.map(([name]) => name));
});

test.each(HANDBOOK)('%s has the figures of the Handbook', (name, gravity, moe, mor, percent) => {
  const species = SPECIES.find((each) => each.name === name)!;
  expect(species).toMatchObject({ specificGravity: gravity, moe, mor });
  // The elastic modulus is rounded to 100 MPa in 7700 or more: 0.65 % of itself at worst, and 0.1 % for the rest.
  expect(Math.abs(100 * breakingStrain(species) - percent)).toBeLessThan(0.0075 * percent);
});

test('basswood has the least breaking strain, 0.60 %, and rock elm the most, 0.96 %', () => {
  const byStrain = SPECIES.toSorted((a, b) => breakingStrain(a) - breakingStrain(b));
  const [least, most] = [byStrain[0]!, byStrain.at(-1)!];
  expect([least.name, (100 * breakingStrain(least)).toFixed(1)]).toEqual(['American basswood', '0.6']);
  expect([most.name, (100 * breakingStrain(most)).toFixed(2)]).toEqual(['Rock elm', '0.96']);
});

test('imports have the figures of their own table', () => {
  const imports = SPECIES.filter(({ source }) => source.table === '5-5b');
  expect(imports.map(({ name }) => name)).toEqual(['Honduran mahogany', 'Teak']);
});
