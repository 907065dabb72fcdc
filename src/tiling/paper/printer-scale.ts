import { Fault } from '../../units/fault.ts';
import { trimmed } from '../../units/number-format.ts';
import { parseLength } from '../../units/parse-length.ts';
import { quoted } from '../../units/quoted.ts';
import type { Orientation } from './paper-sizes.ts';

/**
 * How long a printer makes 1 mm, along the two sides of the paper as it stands upright: across its
 * short side, down its long one. A lying page is turned by the printer to fit the paper, so the scale
 * belongs to the paper and not to the page. On a roll, across is across the roll.
 */
export interface PrinterScale {
  /** mm printed for 1 mm meant, along the paper’s short side. */
  readonly across: number;
  /** The same along its long side. */
  readonly down: number;
  /** The printer's name in the list of those measured; absent when the scale was typed. */
  readonly name?: string;
}

/** How long a page's millimetre comes out of the printer, along the page's own width and height. */
export interface PrinterStretch {
  readonly x: number;
  readonly y: number;
}

export const TRUE_PRINTER: PrinterScale = { across: 1, down: 1 };

/** The length of both lines on the printer sheet, mm: the longest round one that letter and A4 hold both ways. */
export const NOMINAL_LINE_MM = 200;

/**
 * A scale farther from 1 than this is no printer's error but a page fitted to other paper (A4 fitted to
 * letter: 94.1 %), a wrong nominal length or a slip: to correct it would hide it.
 */
export const MAX_SCALE_ERROR = 0.05;

export const pageStretch = ({ across, down }: PrinterScale, orientation: Orientation): PrinterStretch =>
  orientation === 'upright' ? { x: across, y: down } : { x: down, y: across };

const PERCENT = /^(\d{1,4}(?:\.\d{1,9})?)\s*%$/;

/**
 * A printer's scale as measured: "199.4 mm" of a line meant to be `nominal` mm long, or "99.7 %". A bare
 * number is in mm.
 *
 * @throws Fault `printer.scale` beyond MOST_OFF, and the faults of lengths
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
      `${quoted(text)} would be ${scalePercent(scale)} of the true length (${length(nominal)} on the printer sheet), and more than ${most} % off is no printer’s error. ` +
      'Print the sheet at 100 % ("actual size") on the paper it is meant for and measure again; if its lines are of another nominal length, give that with --nominal.',
  );
}

/** "99.7 %", to a thousandth of a per cent: 0.002 mm on 200 mm. */
export const scalePercent = (scale: number): string => `${trimmed(scale * 100, 3)} %`;

/** "99.7 % across, 100.3 % down". */
export const printerScaleText = ({ across, down }: PrinterScale): string =>
  `${scalePercent(across)} across, ${scalePercent(down)} down`;

/** The nominal length of the lines on a printer sheet; short ones would measure the reading, not the printer. */
const MIN_NOMINAL_MM = 100;

/** @throws Fault `printer.nominal`, and the faults of lengths */
export function parseNominal(text: string): number {
  const nominal = parseNominalLength(text);
  if (nominal < MIN_NOMINAL_MM)
    throw new Fault(
      'printer.nominal',
      (length) =>
        `lines of ${length(nominal)} are too short to tell a printer’s scale. Use ${length(MIN_NOMINAL_MM)} or more.`,
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
      `${quoted(text)} is longer than any paper. Give a length that the paper takes, such as ${NOMINAL_LINE_MM} mm.`,
    );
  }
}

/** A word or several as one argument of a command line, to be typed as it stands. */
export const shellArgument = (text: string): string => (/\s/.test(text) ? `"${text}"` : text);
