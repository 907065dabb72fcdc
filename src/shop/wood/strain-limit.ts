import type { Species } from './species.ts';

/*
 * A batten bent to a radius R stretches on its round face and shortens on its hollow face by t/(2R): plane sections
 * stay plane. R is that of the middle of the thickness. The line is drawn along a face, half a thickness off, which
 * makes an error of the strain itself, as a share: under 1 % for any batten that does not break. Wood varies by far
 * more.
 */

/** Strain of the outer fibers, without unit: thickness mm, curvature of the line 1/mm. */
export const fiberStrain = (thickness: number, curvature: number): number =>
  (thickness * Math.abs(curvature)) / 2;

/** The strain at which the average clear piece breaks, if it is elastic up to there: MOR/MOE. */
export const breakingStrain = ({ mor, moe }: Species): number => mor / moe;

/**
 * The share of the breaking strain that a batten may be sprung to. Wood is elastic up to about 55 to 65 % of its
 * modulus of rupture (the proportional limit in bending; from memory of the Handbook's tables); beyond that it takes a
 * set. Half the tabulated MOR/MOE is 55 % of the rupture stress once shear is taken out of the stiffness (see
 * bending-stiffness.ts), the lower end of that range. For white oak it is 0.43 %, a radius of 117 thicknesses; shops
 * say 100 or more. A larger share would leave a set batten, whose next curve is not fair, and no margin for runout or
 * for a piece weaker than average.
 */
const SAFE_SHARE = 0.5;

export const safeStrain = (species: Species): number => SAFE_SHARE * breakingStrain(species);

/** `risky` is over the safe strain, but below where the average piece breaks. */
export type StrainVerdict = 'safe' | 'risky' | 'breaks';

/** A strain over the safe one by this share is the rounding of thickness times curvature. */
const ROUNDING_SHARE = 1e-12;

/** Whether wood of a species stands a strain (a share of the length). */
export function strainVerdict(strain: number, species: Species): StrainVerdict {
  if (strain <= safeStrain(species) * (1 + ROUNDING_SHARE)) return 'safe';
  return strain < breakingStrain(species) ? 'risky' : 'breaks';
}

/** The thickest batten that is safe at a curvature (1/mm, > 0), mm: 2R × the safe strain. */
export const maxSafeThickness = (curvature: number, species: Species): number =>
  (2 * safeStrain(species)) / Math.abs(curvature);
