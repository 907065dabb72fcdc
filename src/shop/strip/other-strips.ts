import { fiberStrain, thicknessForStiffness } from '../wood/bending.ts';

/** A strip of another material, where no wooden one takes the bend. */
export interface OtherStrip {
  readonly material: 'spring steel' | 'acrylic';
  /** The thickest that is safe and that its nails hold, mm. */
  readonly maxThickness: number;
  readonly safeStrain: number;
}

/**
 * Common practice, no published source; values from memory. Blue tempered steel yields at about 0.7% and is sold from
 * 0.010 in. Acrylic breaks at 4 to 5%, and 1% is for a bend of minutes: its makers allow 0.15 to 0.3% (a radius of
 * 330 to 180 thicknesses) where it stays bent for years. Moduli in MPa, thicknesses in mm.
 */
const MATERIALS = [
  { material: 'spring steel', modulus: 205_000, safeStrain: 0.005, thinnest: 0.25 },
  { material: 'acrylic', modulus: 3000, safeStrain: 0.01, thinnest: 1.5 },
] as const;

/** Those that are sold thin enough. `mostStiffness` is what the nails hold, N·mm². */
export const otherStrips = (curvature: number, mostStiffness: number, width: number): OtherStrip[] =>
  MATERIALS.flatMap(({ material, modulus, safeStrain, thinnest }) => {
    const held = thicknessForStiffness(mostStiffness, modulus, width);
    const maxThickness = Math.min(safeStrain / fiberStrain(1, curvature), held);
    return maxThickness < thinnest ? [] : [{ material, maxThickness, safeStrain }];
  });
