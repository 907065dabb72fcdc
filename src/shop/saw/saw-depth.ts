import { bladeDepth, type CompoundAngles } from '../../part/ends/compound-angles.ts';
import type { PartEnd } from '../../part/ends/end-planes.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';

export interface TableSaw {
  readonly name: Readonly<Record<Unit, string>>;
  /** Of the upright blade over the table, mm. */
  readonly depth: number;
  readonly depthAt45?: number;
}

/** By its blade as it is sold: 254 and 305 mm go by 250 and 300. Common practice. */
const commonName = (inches: number, mm: number): TableSaw['name'] => ({
  in: `a common ${inches}" table saw`,
  mm: `a common table saw with a ${mm} mm blade`,
});

/** Common practice, from memory: 3 1/8 in upright, 2 1/8 to 2 1/4 at 45°; 4 in and 2 3/4. Any one saw may differ. */
export const COMMON_SAWS: readonly [TableSaw, TableSaw] = [
  { name: commonName(10, 250), depth: 3.125 * MM_PER_INCH },
  { name: commonName(12, 300), depth: 4 * MM_PER_INCH, depthAt45: 2.75 * MM_PER_INCH },
];

/** Radians, with a margin for rounding. Common practice. */
const MAX_BLADE_TILT = (45 * Math.PI) / 180 + 1e-9;
/** Of a miter gauge, radians, with a margin for rounding. Common practice. */
const MAX_MITER_SWING = (60 * Math.PI) / 180 + 1e-9;

/** How much blade stands over the table, along the blade, mm: interpolated from upright to 45°. */
export function bladeReach({ depth, depthAt45 }: TableSaw, bevel: number): number {
  const tilted = depthAt45 === undefined ? depth : depthAt45 * Math.SQRT2;
  return depth + (tilted - depth) * Math.min(1, Math.abs(bevel) / (Math.PI / 4));
}

/** `too thick` leaves wood between two passes, `too steep` is more than the blade tilts or the miter gauge swings. */
export type CutPasses = 'one face' | 'two faces' | 'too thick' | 'too steep';

export interface EndCut {
  readonly end: PartEnd;
  /** Of blade, along its tilt, mm; absent where the thickness is not known. */
  readonly needs?: number;
  readonly reach: number;
  readonly passes?: CutPasses;
}

export function planEndCut(end: PartEnd, thickness: number | undefined, saw: TableSaw): EndCut {
  const { bevel } = end.angles;
  const reach = bladeReach(saw, bevel);
  const needs = thickness === undefined ? undefined : bladeDepth(thickness, bevel);
  const passes = isTooSteep(end.angles) ? 'too steep' : needs !== undefined && passesFor(needs, reach);
  return { end, ...(needs !== undefined && { needs }), reach, ...(passes && { passes }) };
}

const passesFor = (depth: number, reach: number): CutPasses =>
  depth <= reach ? 'one face' : depth / 2 <= reach ? 'two faces' : 'too thick';

const isTooSteep = ({ miter, bevel }: CompoundAngles): boolean =>
  Math.abs(bevel) > MAX_BLADE_TILT || Math.abs(miter) > MAX_MITER_SWING;

/** Under the raised guide of a common 14 in band saw, 6 in. Common practice, from memory. */
export const COMMON_HEIGHT_MM = 6 * MM_PER_INCH;
