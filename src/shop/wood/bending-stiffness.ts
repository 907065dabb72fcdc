import type { Species } from './species.ts';

/**
 * The tabulated modulus of elasticity is too low by this: it was measured on a beam 14 depths long, whose
 * deflection is partly shear, and the Handbook's own footnote says to add 10 % to take that out. A batten is
 * over a hundred thicknesses long and deflects by bending alone.
 */
const SHEAR_CORRECTION = 1.1;

/** Stiffness in pure bending, MPa: for forces. */
export const bendingModulus = ({ moe }: Species): number => SHEAR_CORRECTION * moe;

/** EI of a strip standing on edge, N·mm²: E·b·t³/12, with E in MPa, width b and thickness t in mm. */
export const stripStiffness = (modulus: number, width: number, thickness: number): number =>
  (modulus * width * thickness ** 3) / 12;

/** The thickness whose EI is this, mm: what `stripStiffness` undoes. */
export const thicknessForStiffness = (stiffness: number, modulus: number, width: number): number =>
  Math.cbrt((12 * stiffness) / (modulus * width));
