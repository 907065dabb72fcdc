import type { Species } from './species.ts';

/*
 * A strip bent to a radius R stretches on its round face and shortens on its hollow face by t/(2R): plain
 * bending, plane sections staying plane. R is meant to the middle of the thickness. The line is drawn along a
 * face, half a thickness off, so that R taken from the line is wrong by the strain itself, as a share:
 * under 1 % of the strain for any strip that does not break. That is left out: wood varies by far more.
 */

/** Strain of the outer fibres, without unit: thickness mm, curvature of the line 1/mm. */
export const fiberStrain = (thickness: number, curvature: number): number =>
  (thickness * Math.abs(curvature)) / 2;

/** The strain at which the average clear piece breaks, were it elastic up to there: MOR/MOE. */
export const breakingStrain = ({ mor, moe }: Species): number => mor / moe;

/**
 * The share of the breaking strain that a batten may be sprung to. Wood is elastic up to about 55 to 65 % of
 * its modulus of rupture (the proportional limit in bending; from memory of the Handbook's tables); over
 * that it takes a set. Half the tabulated MOR/MOE is 55 % of the rupture stress once the stiffness is
 * rid of shear deflection (see stiffness.ts), the lower end of that range. For white oak it is 0.43 %, a
 * radius of 117 thicknesses; shops say 100 or more. A larger share would leave a set strip, whose next
 * curve is not fair, and nothing for grain that runs out or for a piece weaker than average.
 */
const SAFE_SHARE = 0.5;

/** The strain to which a clear, straight-grained batten may be sprung for a while. */
export const safeStrain = (species: Species): number => SAFE_SHARE * breakingStrain(species);

/** `risky`: over the safe strain, short of where the average piece breaks. */
export type StrainVerdict = 'safe' | 'risky' | 'breaks';

/** A strain this near the safe one, as a share, is the safe one: the roundings of thickness times curvature. */
const ROUNDING_SHARE = 1e-12;

/** Whether wood of a species stands a strain (a share of the length). */
export function strainVerdict(strain: number, species: Species): StrainVerdict {
  if (strain <= safeStrain(species) * (1 + ROUNDING_SHARE)) return 'safe';
  return strain < breakingStrain(species) ? 'risky' : 'breaks';
}

/** The thickest strip that is safe at a curvature (1/mm, > 0), mm: 2R × the safe strain. */
export const maxSafeThickness = (curvature: number, species: Species): number =>
  (2 * safeStrain(species)) / Math.abs(curvature);
