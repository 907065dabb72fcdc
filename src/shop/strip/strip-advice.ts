import type { Point } from '../../curves/geometry/point.ts';
import { Fault } from '../../units/fault.ts';
import { downOnRule } from '../../units/floor-to-graduation.ts';
import { bendingModulus, stripStiffness } from '../wood/bending-stiffness.ts';
import type { Species } from '../wood/species.ts';
import {
  breakingStrain,
  fibreStrain,
  safeStrain,
  thickestSafe,
  type Verdict,
  verdictOn,
} from '../wood/strain-limit.ts';
import { chooseStrip, type Strip, type StripAsk } from './choose-strip.ts';
import type { SprungLine } from './sprung-line.ts';
import { clearFace, nailsFor, type Side, type StripNail } from './strip-nails.ts';

/** Which strip does the curve, and how to hold it. Plain data: mm, N, strains without unit. */
export interface StripAdvice extends Strip {
  readonly species: Species;
  /** Of the outer fibres at the worst place. */
  readonly strain: number;
  readonly worst: { readonly at: Point; readonly radius: number };
  readonly safeStrain: number;
  readonly breakingStrain: number;
  readonly verdict: Verdict;
  /** The thickest strip of this wood that is safe, to full precision; at the start, for a tapered strip. */
  readonly maxThickness: number;
  /** The same down on the maker's rule; 0 when even one graduation is too thick. */
  readonly maxThicknessOnRule: number;
  /** The face that the pencil follows. */
  readonly traced: Side;
  readonly nails: readonly StripNail[];
  /** Whether the strip is thinner at one end. */
  readonly tapered: boolean;
}

/**
 * Which strip does the curve, by plain bending: strain t/(2R) at the worst place, force EI times the
 * reaction of the pin.
 *
 * @throws Fault `strip.straight` for a line that bends nothing, and as `chooseStrip`
 */
export function adviseStrip(line: SprungLine, ask: StripAsk): StripAdvice {
  const { worst, pins } = line;
  if (!worst)
    throw new Fault(
      'strip.straight',
      'the line is straight and bends no strip. Draw it along a straightedge.',
    );
  const strip = chooseStrip(line, worst, ask);
  const traced = ask.traced ?? clearFace(pins);
  const { thickness, width, nailDiameter: diameter } = strip;
  const stiffness = stripStiffness(bendingModulus(ask.species), width, thickness);
  return {
    ...strip,
    ...strainIn(fibreStrain(thickness, worst.curvature), ask.species),
    ...thickestIn(worst.curvature, ask),
    worst: { at: worst.at, radius: worst.share / worst.curvature },
    traced,
    nails: nailsFor(line, { thickness, stiffness, diameter, traced }),
    tapered: pins.some(({ share }) => share !== 1),
  };
}

const strainIn = (strain: number, species: Species) => ({
  species,
  strain,
  safeStrain: safeStrain(species),
  breakingStrain: breakingStrain(species),
  verdict: verdictOn(strain, species),
});

function thickestIn(curvature: number, { species, rule }: StripAsk) {
  const maxThickness = thickestSafe(curvature, species);
  return { maxThickness, maxThicknessOnRule: downOnRule(maxThickness, rule) };
}
