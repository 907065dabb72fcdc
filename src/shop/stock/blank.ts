import type { Part } from '../../part/part.ts';
import type { Warning } from '../../units/fault.ts';
import { showLength } from '../../units/rule.ts';
import { MM_PER_INCH, MM3_PER_M3, type Unit } from '../../units/unit.ts';
import type { Footprint } from './footprint.ts';

/** mm */
export interface BoardSize {
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
}

/** One foot of a board one foot wide and one inch thick. */
const CUBIC_INCHES_PER_BOARD_FOOT = 144;

/** A board under 1 in thick counts as 1 in (I. S. Griffith, Advanced Projects in Woodwork). */
export function boardFeet({ length, width, thickness }: BoardSize): number {
  const thick = Math.max(thickness / MM_PER_INCH, 1);
  return (thick * (width / MM_PER_INCH) * (length / MM_PER_INCH)) / CUBIC_INCHES_PER_BOARD_FOOT;
}

export const cubicMetres = ({ length, width, thickness }: BoardSize): number =>
  (length * width * thickness) / MM3_PER_M3;

/**
 * Length 1/2 in (I. S. Griffith, Advanced Projects in Woodwork; 12.5 mm in a trade encyclopedia's cutting lists).
 * Width 1/4 in: common practice, no published source. Planing: 1/8 in or more (Griffith); 3 in round millimeters.
 */
const DEFAULT_ALLOWANCES: Readonly<Record<Unit, BoardSize>> = {
  in: { length: MM_PER_INCH / 2, width: MM_PER_INCH / 4, thickness: MM_PER_INCH / 8 },
  mm: { length: 12.5, width: 6, thickness: 3 },
};

export interface Blank extends Omit<BoardSize, 'thickness'> {
  readonly thickness?: number;
  readonly allowances: BoardSize;
}

/** The part over all (saw line and long points), with the allowances around it. */
export function blankOf(
  { rule, stock, widthAllowance }: Part,
  { length, width }: Pick<Footprint, 'length' | 'width'>,
): Blank {
  const usual = DEFAULT_ALLOWANCES[rule.unit];
  const allowances = { ...usual, width: widthAllowance ?? usual.width };
  return {
    length: length + allowances.length,
    width: width + allowances.width,
    ...(stock?.thickness !== undefined && { thickness: stock.thickness + allowances.thickness }),
    allowances,
  };
}

export const blankWarnings = ({ stock, rule }: Part, blank: Blank): Warning[] =>
  (['length', 'width'] as const).flatMap((side): Warning[] => {
    const have = stock?.[side];
    if (have === undefined || have >= blank[side]) return [];
    const over = have - (blank[side] - blank.allowances[side]);
    const place = `That leaves ${showLength(over, rule)} beyond the saw line. Place the pattern so that all of it is on the wood.`;
    const cure = over < 0 ? 'Use larger stock, or rotate the grain back.' : place;
    const sizes = `the ${side} of the stock is ${showLength(have, rule)}, but a blank with its allowance needs ${showLength(blank[side], rule)}`;
    return [{ code: `stock.blank-${side}`, message: `${sizes}. ${cure}` }];
  });
