import type { Species } from './species.ts';

/** t/(2R), as plane sections stay plane. R is that of the middle, not of the traced face: an error under 1%. */
export const fiberStrain = (thickness: number, curvature: number): number =>
  (thickness * Math.abs(curvature)) / 2;

/** The strain at which the average clear piece breaks, if it is elastic up to there: MOR/MOE. */
export const breakingStrain = ({ mor, moe }: Species): number => mor / moe;

/**
 * Wood takes a set beyond 55 to 65% of its modulus of rupture (proportional limit; from memory of the Handbook's
 * tables). Half the tabulated MOR/MOE is 55% of the rupture stress once shear is taken out of the stiffness: for
 * white oak 0.43%, a radius of 117 thicknesses; shops say 100 or more. A larger share leaves no margin for runout or
 * a weak piece.
 */
const SAFE_SHARE = 0.5;

export const safeStrain = (species: Species): number => SAFE_SHARE * breakingStrain(species);

/** `risky` is over the safe strain, but the average piece does not break. */
export type StrainVerdict = 'safe' | 'risky' | 'breaks';

/** A strain over the safe one by this share is the rounding of thickness times curvature. */
const ROUNDING_SHARE = 1e-12;

/** By the strain as a share of the length. */
export function strainVerdict(strain: number, species: Species): StrainVerdict {
  if (strain <= safeStrain(species) * (1 + ROUNDING_SHARE)) return 'safe';
  return strain < breakingStrain(species) ? 'risky' : 'breaks';
}

/** The thickest batten that is safe at a curvature (1/mm, > 0), mm: 2R × the safe strain. */
export const maxSafeThickness = (curvature: number, species: Species): number =>
  (2 * safeStrain(species)) / Math.abs(curvature);

/** To take shear out of the tabulated modulus, measured on a beam 14 depths long, the Handbook's footnote adds 10%. */
const SHEAR_CORRECTION = 1.1;

/** Stiffness in pure bending, MPa: for forces. */
export const bendingModulus = ({ moe }: Species): number => SHEAR_CORRECTION * moe;

/** EI of a strip standing on edge, N·mm²: E·b·t³/12, with E in MPa, width b and thickness t in mm. */
export const stripStiffness = (modulus: number, width: number, thickness: number): number =>
  (modulus * width * thickness ** 3) / 12;

/** The inverse of `stripStiffness`, mm. */
export const thicknessForStiffness = (stiffness: number, modulus: number, width: number): number =>
  Math.cbrt((12 * stiffness) / (modulus * width));
