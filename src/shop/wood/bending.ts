import type { Species } from './species.ts';

/**
 * The outer fibers of a batten bent to a radius R (curvature 1/R, 1/mm) stretch by t/(2R): plane sections stay plane. R
 * is that of the middle, while the line is drawn along a face: an error under 1 % for any batten that does not break.
 */
export const fiberStrain = (thickness: number, curvature: number): number =>
  (thickness * Math.abs(curvature)) / 2;

/** The strain at which the average clear piece breaks, if it is elastic up to there: MOR/MOE. */
export const breakingStrain = ({ mor, moe }: Species): number => mor / moe;

/**
 * The share of the breaking strain that a batten may be sprung to. Wood is elastic up to about 55 to 65 % of its
 * modulus of rupture (the proportional limit in bending; from memory of the Handbook's tables); beyond that it takes a
 * set, and its next curve is not fair. Half the tabulated MOR/MOE is 55 % of the rupture stress once shear is taken out
 * of the stiffness, the lower end of that range. For white oak it is 0.43 %, a radius of 117 thicknesses; shops say 100
 * or more. A larger share leaves no margin for runout or for a weak piece.
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

/**
 * The tabulated modulus of elasticity was measured on a beam 14 depths long, whose deflection is partly shear; the
 * Handbook's own footnote says to add 10 % to take that out. A batten is over a hundred thicknesses long.
 */
const SHEAR_CORRECTION = 1.1;

/** Stiffness in pure bending, MPa: for forces. */
export const bendingModulus = ({ moe }: Species): number => SHEAR_CORRECTION * moe;

/** EI of a strip standing on edge, N·mm²: E·b·t³/12, with E in MPa, width b and thickness t in mm. */
export const stripStiffness = (modulus: number, width: number, thickness: number): number =>
  (modulus * width * thickness ** 3) / 12;

/** The inverse of `stripStiffness`, mm. */
export const thicknessForStiffness = (stiffness: number, modulus: number, width: number): number =>
  Math.cbrt((12 * stiffness) / (modulus * width));
