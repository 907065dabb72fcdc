import type { Point } from '../../curves/geometry/point.ts';
import { Fault } from '../../units/fault.ts';
import { floorToGraduation } from '../../units/graduation.ts';
import type { Rule } from '../../units/rule.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import {
  bendingModulus,
  breakingStrain,
  fiberStrain,
  maxSafeThickness,
  type StrainVerdict,
  safeStrain,
  strainVerdict,
  stripStiffness,
  thicknessForStiffness,
} from '../wood/bending.ts';
import type { Species } from '../wood/species.ts';
import { type OtherStrip, otherStrips } from './other-strips.ts';
import type { SprungLine } from './sprung-line.ts';
import { chooseTracedFace, nailCapacity, placeNails, type StripNail, type StripSide } from './strip-nails.ts';

export interface StripOptions {
  readonly species: Species;
  readonly rule: Rule;
  /** At the start, where it is tapered. */
  readonly thickness?: number;
  /** The batten's height as it stands on edge. */
  readonly width?: number;
  readonly nailDiameter?: number;
  readonly traced?: StripSide;
}

/** In mm and N; strains have no unit. */
export interface StripAdvice {
  readonly species: Species;
  readonly thickness: number;
  readonly width: number;
  /** With an overhang at each end, up to a round length. */
  readonly cutLength: number;
  readonly overhang: number;
  readonly nailDiameter: number;
  readonly nailCapacity: number;
  readonly strain: number;
  readonly worst: { readonly at: Point; readonly radius: number };
  readonly safeStrain: number;
  readonly breakingStrain: number;
  readonly verdict: StrainVerdict;
  /** The thickest safe batten of this wood, at the start for a tapered one, to full precision, mm. */
  readonly maxThickness: number;
  /** The same down to the rule; 0 when even one graduation is too thick. */
  readonly maxThicknessOnRule: number;
  readonly minThickness: number;
  /** Where neither this strip nor wood that can be made takes the bend, what does, if anything; else absent. */
  readonly others?: readonly OtherStrip[];
  readonly traced: StripSide;
  readonly nails: readonly StripNail[];
  readonly tapered: boolean;
}

/**
 * Where the maker gives none; common practice, no published source. The width stands on edge and comes out of a 1 in
 * board; a thicker batten is hard to spring and no fairer; a small wire nail is stiff enough and its hole does no
 * harm; the overhang (6 to 12 in) is to grip, and so that no nail presses at an end; a thinner batten breaks at the plane.
 */
const STRIP_DEFAULTS = {
  in: {
    width: (3 / 4) * MM_PER_INCH,
    minThickness: MM_PER_INCH / 16,
    maxThickness: MM_PER_INCH / 2,
    nailDiameter: (3 / 32) * MM_PER_INCH,
    overhang: 8 * MM_PER_INCH,
    roundLength: MM_PER_INCH,
  },
  mm: { width: 20, minThickness: 1.5, maxThickness: 12, nailDiameter: 2.5, overhang: 200, roundLength: 10 },
} as const;

/**
 * By strain t/(2R) at the worst place, and force EI times the pin's reaction. Without a thickness the largest on the
 * rule that is safe and that the nails hold, up to the usual one or the width; the thinnest that can
 * be made at least, safe or not.
 * @throws Fault `strip.straight`, `strip.thickness`, `strip.width`, `strip.nail`
 */
export function adviseStrip(line: SprungLine, ask: StripOptions): StripAdvice {
  const { worst, pins } = line;
  const straight = 'the edge is straight and needs no batten. Draw the edge along a straightedge.';
  if (!worst) throw new Fault('strip.straight', straight);
  const { species, rule } = ask;
  const { overhang, roundLength, minThickness, ...usual } = STRIP_DEFAULTS[rule.unit];
  const width = positiveSize('width', ask.width ?? usual.width);
  const diameter = positiveSize('nail', ask.nailDiameter ?? usual.nailDiameter);
  const capacity = nailCapacity(diameter, width);
  const reaction = Math.max(0, ...pins.map((pin) => Math.abs(pin.reaction)));
  const modulus = bendingModulus(species);
  const maxThickness = maxSafeThickness(worst.curvature, species);
  const mostStiffness = reaction > 0 ? capacity / reaction : Number.POSITIVE_INFINITY;
  const held = thicknessForStiffness(mostStiffness, modulus, width);
  const thickest = Math.min(maxThickness, held, usual.maxThickness, width);
  const chosen = Math.max(floorToGraduation(thickest, rule), minThickness);
  const thickness = positiveSize('thickness', ask.thickness ?? chosen);
  const traced = ask.traced ?? chooseTracedFace(pins);
  const stiffness = stripStiffness(modulus, width, thickness);
  const strain = fiberStrain(thickness, worst.curvature);
  const verdict = strainVerdict(strain, species);
  const fits = verdict === 'safe' || maxThickness >= minThickness;
  const nailing = { thickness, stiffness, diameter, traced, overhang };
  return {
    species,
    thickness,
    width,
    cutLength: roundLength * Math.ceil((line.length + 2 * overhang) / roundLength),
    overhang,
    nailDiameter: diameter,
    nailCapacity: capacity,
    strain,
    safeStrain: safeStrain(species),
    breakingStrain: breakingStrain(species),
    verdict,
    maxThickness,
    maxThicknessOnRule: floorToGraduation(maxThickness, rule),
    minThickness,
    ...(!fits && { others: otherStrips(worst.curvature, mostStiffness, width) }),
    worst: { at: worst.at, radius: worst.share / worst.curvature },
    traced,
    nails: placeNails(line, nailing),
    tapered: pins.some(({ share }) => share !== 1),
  };
}

function positiveSize(what: 'thickness' | 'width' | 'nail', mm: number): number {
  if (Number.isFinite(mm) && mm > 0) return mm;
  const name = what === 'nail' ? 'diameter of the nails' : `${what} of the batten`;
  throw new Fault(`strip.${what}`, `the ${name} must be over 0. Give a size over 0, or leave it out.`);
}
