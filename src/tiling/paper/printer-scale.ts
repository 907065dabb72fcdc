import { Fault } from '../../units/fault.ts';
import { trimmed } from '../../units/number-format.ts';
import { parseLength } from '../../units/parse-length.ts';
import { quoted } from '../../units/quoted.ts';
import type { Orientation } from './paper-sizes.ts';

/** Along the sides of the paper, since a printer turns a lying page to fit it; on a roll, across the roll. */
export interface PrinterScale {
  /** mm printed for 1 mm meant, along the paper’s short side. */
  readonly across: number;
  /** Along its long side. */
  readonly down: number;
  /** The printer's name in the list of those measured; absent when the scale was typed. */
  readonly name?: string;
}

/** How long a page's millimeter is printed, along the page's own width and height. */
export interface PrinterStretch {
  readonly x: number;
  readonly y: number;
}

export const TRUE_PRINTER: PrinterScale = { across: 1, down: 1 };

/** Both lines on the printer sheet, mm: the longest round length that letter and A4 hold both ways. */
export const NOMINAL_LINE_MM = 200;

/** Farther off it is a page fitted to other paper (A4 to letter: 94.1%) or a slip, and correcting would hide it. */
export const MAX_SCALE_ERROR = 0.05;

export const pageStretch = ({ across, down }: PrinterScale, orientation: Orientation): PrinterStretch =>
  orientation === 'upright' ? { x: across, y: down } : { x: down, y: across };

const PERCENT = /^(\d{1,4}(?:\.\d{1,9})?)\s*%$/;

/**
 * "199.4 mm" of a line meant to be `nominal` mm long, or "99.7%"; a bare number is in mm.
 * @throws Fault `printer.scale` beyond MAX_SCALE_ERROR, and the faults of lengths
 */
export function parseScale(text: string, nominal = NOMINAL_LINE_MM): number {
  const percent = PERCENT.exec(text.trim())?.[1];
  const scale = percent === undefined ? parseLength(text, 'mm', 'positive') / nominal : Number(percent) / 100;
  validateScale(scale, text, nominal);
  return scale;
}

function validateScale(scale: number, text: string, nominal: number): void {
  if (Math.abs(scale - 1) <= MAX_SCALE_ERROR + Number.EPSILON) return;
  const most = MAX_SCALE_ERROR * 100;
  throw new Fault(
    'printer.scale',
    (length) =>
      `${quoted(text)} would be ${scalePercent(scale)} of the true length, ${length(nominal)} on the printer sheet. An error over ${most}% does not come from the printer. ` +
      'Print the sheet at 100% ("actual size") on the paper that it names, and measure again. If its lines have another length, give it with --nominal.',
  );
}

/** "99.7%", to a thousandth of a per cent: 0.002 mm on 200 mm. */
export const scalePercent = (scale: number): string => `${trimmed(scale * 100, 3)}%`;

export const printerScaleText = ({ across, down }: PrinterScale): string =>
  `${scalePercent(across)} across, ${scalePercent(down)} down`;

/** On shorter lines the error of reading would outweigh the printer's. */
const MIN_NOMINAL_MM = 100;

/** @throws Fault `printer.nominal`, and the faults of lengths */
export function parseNominal(text: string): number {
  const nominal = parseNominalLength(text);
  if (nominal < MIN_NOMINAL_MM)
    throw new Fault(
      'printer.nominal',
      (length) =>
        `lines of ${length(nominal)} are too short to measure the scale of a printer. Use ${length(MIN_NOMINAL_MM)} or more.`,
    );
  return nominal;
}

/** Where any length would be too long, no paper takes the line either. */
function parseNominalLength(text: string): number {
  try {
    return parseLength(text, 'mm', 'positive');
  } catch (error) {
    if (!(error instanceof Fault) || error.code !== 'length.too-large') throw error;
    throw new Fault(
      'printer.nominal',
      `${quoted(text)} is longer than any paper. Use a length that fits on the paper, such as ${NOMINAL_LINE_MM} mm.`,
    );
  }
}

/** One argument of a command line, to be typed as it stands. */
export const shellArgument = (text: string): string => (/\s/.test(text) ? `"${text}"` : text);
