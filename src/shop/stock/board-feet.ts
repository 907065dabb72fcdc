import { MM_PER_INCH } from '../../units/unit.ts';

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
  const [t, w, l] = [thickness, width, length].map((mm) => mm / MM_PER_INCH) as [number, number, number];
  return (Math.max(t, 1) * w * l) / CUBIC_INCHES_PER_BOARD_FOOT;
}

const MM3_PER_M3 = 1e9;

export const cubicMetres = ({ length, width, thickness }: BoardSize): number =>
  (length * width * thickness) / MM3_PER_M3;
