import { MM_PER_INCH, MM3_PER_M3 } from '../../units/unit.ts';

/** mm */
export interface BoardSize {
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
}

/** One foot of a board one foot wide and one inch thick. */
const CUBIC_INCHES_PER_BOARD_FOOT = 144;

/**
 * Thickness × width × length in inches, over 144; a board under 1 in thick counts as 1 in (I. S. Griffith, Advanced
 * Projects in Woodwork).
 */
export function boardFeet({ length, width, thickness }: BoardSize): number {
  const thick = Math.max(thickness / MM_PER_INCH, 1);
  return (thick * (width / MM_PER_INCH) * (length / MM_PER_INCH)) / CUBIC_INCHES_PER_BOARD_FOOT;
}

export const cubicMetres = ({ length, width, thickness }: BoardSize): number =>
  (length * width * thickness) / MM3_PER_M3;
