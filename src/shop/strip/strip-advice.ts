import type { Point } from '../../curves/geometry/point.ts';
import { Fault } from '../../units/fault.ts';
import { floorToGraduation } from '../../units/graduation.ts';
import {
  bendingModulus,
  breakingStrain,
  fiberStrain,
  maxSafeThickness,
  type StrainVerdict,
  safeStrain,
  strainVerdict,
  stripStiffness,
} from '../wood/bending.ts';
import type { Species } from '../wood/species.ts';
import { type ChosenStrip, chooseStrip, type StripOptions } from './choose-strip.ts';
import type { SprungLine } from './sprung-line.ts';
import { chooseTracedFace, placeNails, type StripNail, type StripSide } from './strip-nails.ts';

/** In mm and N; strains have no unit. */
export interface StripAdvice extends ChosenStrip {
  readonly species: Species;
  readonly strain: number;
  readonly worst: { readonly at: Point; readonly radius: number };
  readonly safeStrain: number;
  readonly breakingStrain: number;
  readonly verdict: StrainVerdict;
  /** The thickest safe batten of this wood, at the start for a tapered one, to full precision, mm. */
  readonly maxThickness: number;
  /** 0 when even one graduation is too thick. */
  readonly maxThicknessOnRule: number;
  readonly traced: StripSide;
  readonly nails: readonly StripNail[];
  readonly tapered: boolean;
}

/** By strain t/(2R) at the worst place, and force EI times the pin's reaction. @throws Fault `strip.straight` */
export function adviseStrip(line: SprungLine, ask: StripOptions): StripAdvice {
  const { worst, pins } = line;
  if (!worst)
    throw new Fault(
      'strip.straight',
      'the line is straight and bends no strip. Draw it along a straightedge.',
    );
  const { species, rule } = ask;
  const strip = chooseStrip(line, worst, ask);
  const traced = ask.traced ?? chooseTracedFace(pins);
  const { thickness, width, nailDiameter: diameter } = strip;
  const stiffness = stripStiffness(bendingModulus(species), width, thickness);
  const strain = fiberStrain(thickness, worst.curvature);
  const maxThickness = maxSafeThickness(worst.curvature, species);
  return {
    ...strip,
    species,
    strain,
    safeStrain: safeStrain(species),
    breakingStrain: breakingStrain(species),
    verdict: strainVerdict(strain, species),
    maxThickness,
    maxThicknessOnRule: floorToGraduation(maxThickness, rule),
    worst: { at: worst.at, radius: worst.share / worst.curvature },
    traced,
    nails: placeNails(line, { thickness, stiffness, diameter, traced }),
    tapered: pins.some(({ share }) => share !== 1),
  };
}
