import { Fault, type ShowLength } from '../../units/fault.ts';
import { trimmed } from '../../units/number-format.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';

/** A band-saw blade of the trade, and the least radius it turns, mm. */
export interface Blade {
  /** Its width as it is sold, in inches: "1/2". */
  readonly name: string;
  readonly width: number;
  readonly radius: number;
}

const blade = (name: string, width: number, radius: number): Blade => ({
  name,
  width: width * MM_PER_INCH,
  radius: radius * MM_PER_INCH,
});

/**
 * The least radius by width, inches. Common practice: the largest figure of several manuals and charts, which disagree
 * by up to a quarter. (The others: 3/16; 5/16; 5/8; 1 1/4 to 1 7/16; 2 1/2; 3 3/4; 5 7/16; 7 to 7 1/4.) For sharp
 * blades with a good set in stock of common thickness; a worn one turns less.
 */
export const BLADES: readonly [Blade, ...Blade[]] = [
  blade('1/8', 1 / 8, 1 / 4),
  blade('3/16', 3 / 16, 3 / 8),
  blade('1/4', 1 / 4, 5 / 8),
  blade('3/8', 3 / 8, 1.5),
  blade('1/2', 1 / 2, 2.5),
  blade('5/8', 5 / 8, 4),
  blade('3/4', 3 / 4, 5.5),
  blade('1', 1, 7.625),
  blade('1 1/4', 1.25, 9.875),
];

export interface Kerf {
  readonly kerf: number;
  readonly bladeThickness: number;
}

/** Of a common blade of 1/4 to 3/4 in, its teeth set to about 0.04 in. Common practice, no published source. */
export const COMMON_KERF_MM = 1;
/** Common practice, no published source. */
export const COMMON_BLADE_THICKNESS_MM = 0.025 * MM_PER_INCH;

/** A band w wide and g thick just fits a kerf k wide, back against one side, middle against the other: w²/(8·(k − g)). */
export const kerfLimitedRadius = (width: number, { kerf, bladeThickness }: Kerf): number =>
  width ** 2 / (8 * (kerf - bladeThickness));

/**
 * Of the kerf's middle, mm: charted or what fits its kerf. A straight line between rows lies above the true law, about
 * 10·w² in inches. @throws Fault `saw.blade-width` for a blade wider than the chart goes
 */
export function minBladeRadius(width: number, kerf?: Kerf): number {
  const charted = chartRadius(width);
  return kerf ? Math.max(charted, kerfLimitedRadius(width, kerf)) : charted;
}

/** Blades sold in millimeters are the inch ones under a rounded name: 13 mm is 1/2 in, 32 mm is 1 1/4 in. */
const SAME_BLADE_MM = 0.5;

function chartRadius(width: number): number {
  const widest = BLADES.at(-1) ?? BLADES[0];
  if (width > widest.width + SAME_BLADE_MM)
    throw new Fault(
      'saw.blade-width',
      (mm) =>
        `a blade ${mm(width)} wide is too wide for curves. Give a blade of ${mm(widest.width)} or less.`,
    );
  const from = BLADES.findLast((row, i) => row.width < width && i < BLADES.length - 1);
  if (!from) return BLADES[0].radius;
  const to = BLADES.find((row) => row.width > from.width) ?? widest;
  return from.radius + ((to.radius - from.radius) * (width - from.width)) / (to.width - from.width);
}

/** By the radius of the kerf's middle, mm. */
export const widestBlade = (radius: number): Blade | undefined =>
  BLADES.findLast((row) => row.radius <= radius);

/** "1/2\"", "12.7 mm (1/2\")": as a store sells it. */
export function bladeName(width: number, unit: Unit, length: ShowLength): string {
  const row = BLADES.find((each) => Math.abs(each.width - width) < 0.1);
  if (!row) return length(width);
  return unit === 'in' ? `${row.name}"` : `${trimmed(row.width, 1)} mm (${row.name}")`;
}
