import { MM_PER_INCH, type Unit } from '../../units/unit.ts';

export interface LumberThickness {
  /** As the trade says it: "5/4", "5/8 in" below an inch, "27 mm". */
  readonly name: string;
  readonly rough: number;
  readonly planed: number;
}

const lumber = (name: string, rough: number, planed: number): LumberThickness => ({
  name,
  rough: rough * MM_PER_INCH,
  planed: planed * MM_PER_INCH,
});

/** What planing both faces of a board takes, mm: common practice, no published source. */
const METRIC_PLANING = 6;

const metric = (rough: number): LumberThickness => ({
  name: `${rough} mm`,
  rough,
  planed: rough - METRIC_PLANING,
});

/**
 * Inches: the National Hardwood Lumber Association's thicknesses for hardwood, rough, and surfaced two sides. Read in
 * copies, not in the rule book (10/4 planed: from memory). Millimeters: the preferred thicknesses of sawn hardwood of
 * EN 1313-2, from memory. What a yard sells may differ: boards are to be measured.
 */
export const LUMBER_THICKNESSES: Readonly<Record<Unit, readonly LumberThickness[]>> = {
  in: [
    lumber('3/8"', 3 / 8, 3 / 16),
    lumber('1/2"', 1 / 2, 5 / 16),
    lumber('5/8"', 5 / 8, 7 / 16),
    lumber('3/4', 3 / 4, 9 / 16),
    lumber('4/4', 1, 13 / 16),
    lumber('5/4', 1 + 1 / 4, 1 + 1 / 16),
    lumber('6/4', 1 + 1 / 2, 1 + 5 / 16),
    lumber('7/4', 1 + 3 / 4, 1 + 1 / 2),
    lumber('8/4', 2, 1 + 3 / 4),
    lumber('10/4', 2 + 1 / 2, 2 + 1 / 4),
    lumber('12/4', 3, 2 + 3 / 4),
    lumber('14/4', 3 + 1 / 2, 3 + 1 / 4),
    lumber('16/4', 4, 3 + 3 / 4),
  ],
  mm: [20, 27, 32, 40, 50, 60, 65, 70, 80, 100].map(metric),
};

export interface LayerChoice {
  readonly count: number;
  readonly lumber: LumberThickness;
  /** What each board is planed down to, mm. */
  readonly each: number;
  /** Share of the rough board that is planed away. */
  readonly waste: number;
}

/** Nobody glues up more boards than this, face to face, unless the job says so. */
const MAX_LAYERS = 4;

/** A planed thickness typed in mm is rounded: 20.6 for 13/16 in. */
const ROUNDING_MM = 0.05;

/** The thinnest rough boards that plane to a thickness in layers; undefined where none is thick enough. */
export function chooseLumber(thickness: number, count: number, unit: Unit): LayerChoice | undefined {
  const each = thickness / count;
  const found = LUMBER_THICKNESSES[unit].find(({ planed }) => planed >= each - ROUNDING_MM);
  return found && { count, lumber: found, each, waste: 1 - thickness / (count * found.rough) };
}

/** The layers asked for (more than one), or the choices from one board up. */
export function layerChoices(thickness: number, asked: number, unit: Unit): readonly LayerChoice[] {
  const counts = asked > 1 ? [asked] : Array.from({ length: MAX_LAYERS }, (_, i) => i + 1);
  return counts.flatMap((count) => chooseLumber(thickness, count, unit) ?? []);
}
