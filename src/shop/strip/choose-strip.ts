import { Fault } from '../../units/fault.ts';
import { floorToGraduation, graduationMm } from '../../units/graduation.ts';
import type { Rule } from '../../units/rule.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { bendingModulus, maxSafeThickness, thicknessForStiffness } from '../wood/bending.ts';
import type { Species } from '../wood/species.ts';
import type { SprungLine, WorstBend } from './sprung-line.ts';
import { nailCapacity, type StripSide } from './strip-nails.ts';

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

export interface ChosenStrip {
  readonly thickness: number;
  readonly width: number;
  /** With an overhang at each end, up to a round length. */
  readonly cutLength: number;
  readonly overhang: number;
  readonly nailDiameter: number;
  readonly nailCapacity: number;
}

/**
 * Where the maker gives none; common practice, no published source. The width stands on edge and comes out of a 1 in
 * board; a thicker batten is hard to spring and no fairer; a small wire nail is stiff enough and its hole does no
 * harm; the overhang (6 to 12 in) is to grip, and so that no nail presses at an end.
 */
const STRIP_DEFAULTS = {
  in: {
    width: (3 / 4) * MM_PER_INCH,
    maxThickness: MM_PER_INCH / 2,
    nailDiameter: (3 / 32) * MM_PER_INCH,
    overhang: 8 * MM_PER_INCH,
    roundLength: MM_PER_INCH,
  },
  mm: { width: 20, maxThickness: 12, nailDiameter: 2.5, overhang: 200, roundLength: 10 },
} as const;

/**
 * The largest thickness on the rule that is safe and that the nails hold, up to the usual one or the width; one
 * graduation at least, safe or not. @throws Fault `strip.thickness`, `strip.width`, `strip.nail`
 */
export function chooseStrip(line: SprungLine, worst: WorstBend, ask: StripOptions): ChosenStrip {
  const { species, rule } = ask;
  const defaults = STRIP_DEFAULTS[rule.unit];
  const { overhang, roundLength } = defaults;
  const width = positiveSize('width', ask.width ?? defaults.width);
  const nailDiameter = positiveSize('nail', ask.nailDiameter ?? defaults.nailDiameter);
  const capacity = nailCapacity(nailDiameter, width);
  const reaction = Math.max(0, ...line.pins.map((pin) => Math.abs(pin.reaction)));
  const stiffness = reaction > 0 ? capacity / reaction : Number.POSITIVE_INFINITY;
  const thickest = Math.min(
    maxSafeThickness(worst.curvature, species),
    thicknessForStiffness(stiffness, bendingModulus(species), width),
    defaults.maxThickness,
    width,
  );
  const chosen = Math.max(floorToGraduation(thickest, rule), graduationMm(rule));
  return {
    thickness: positiveSize('thickness', ask.thickness ?? chosen),
    width,
    cutLength: roundLength * Math.ceil((line.length + 2 * overhang) / roundLength),
    overhang,
    nailDiameter,
    nailCapacity: capacity,
  };
}

const SIZE_NAMES = {
  thickness: 'thickness of the strip',
  width: 'width of the strip',
  nail: 'diameter of the nails',
};

function positiveSize(what: keyof typeof SIZE_NAMES, mm: number): number {
  if (Number.isFinite(mm) && mm > 0) return mm;
  throw new Fault(
    `strip.${what}`,
    `the ${SIZE_NAMES[what]} is not over 0. Give a size over 0, or leave it out.`,
  );
}
