import type { Part } from '../../part/part.ts';
import { findPrinter } from '../../tiling/paper/known-printers.ts';
import type { Margin } from '../../tiling/paper/margins.ts';
import { DEFAULT_PAPER, parsePaper } from '../../tiling/paper/paper-sizes.ts';
import { type PrinterScale, parseScale } from '../../tiling/paper/printer-scale.ts';
import {
  DEFAULT_MARGIN_MM,
  DEFAULT_MAX_SHEETS,
  DEFAULT_OVERLAP_MM,
  type LayOutOptions,
  MAX_SHEETS,
} from '../../tiling/tile.ts';
import { Fault } from '../../units/fault.ts';
import { parseLength } from '../../units/parse-length.ts';
import type { Unit } from '../../units/unit.ts';
import { knownPrinters } from '../files/printers-file.ts';
import { atOption, type OptionValues, optional, optionWithDefault, readLengths } from './option-spec.ts';
import { paperHelp } from './shared-options.ts';

export const SHEET_OPTIONS = [
  ...optional({
    '--paper <size>': paperHelp('letter, or a4 for a job in mm'),
    '--margin <length>':
      'blank margin: one length for all sides, or four as "top, right, bottom, left" on portrait paper ' +
      '(default: 1/2")',
    '--overlap <length>': 'width that neighboring sheets share (default: 15 mm)',
  }),
  optionWithDefault(
    '--turn <degrees>',
    'rotation of the part on the paper; auto rotates the part only if that saves a sheet (default: auto)',
    'auto',
  ),
  ...optional({
    '--max-sheets <count>': 'largest number of sheets to print (default: 200)',
    '--printer <name>': 'name of a measured printer, to correct its scale error; see fairlath printer --help',
    '--scale-across <measured>':
      'correction without --printer: printed length of a 200 mm line across the paper, or a percentage (default: 100%)',
    '--scale-down <measured>':
      'correction down the paper, along its long side: printed length or percentage (default: 100%)',
  }),
] as const;

type SheetLayoutOptions = OptionValues<typeof SHEET_OPTIONS>;

/** A fault has its option as the key. */
export function readSheetOptions({ rule }: Part, options: SheetLayoutOptions): LayOutOptions {
  const { unit } = rule;
  const { paper, margin } = options;
  const printer = readPrinterScale(options);
  return {
    paper: atOption('--paper', () => parsePaper(paper ?? DEFAULT_PAPER[unit])),
    margin: margin === undefined ? DEFAULT_MARGIN_MM : atOption('--margin', () => parseMargin(margin, unit)),
    overlap: DEFAULT_OVERLAP_MM,
    ...readLengths(options, ['overlap'], unit, 'not-negative'),
    ...(printer && { printer }),
    turn: parseTurn(options.turn),
    maxSheets: parseMaxSheets(options.maxSheets),
  };
}

function readPrinterScale({ printer, scaleAcross, scaleDown }: SheetLayoutOptions): PrinterScale | undefined {
  const isTyped = scaleAcross !== undefined || scaleDown !== undefined;
  if (printer !== undefined && isTyped)
    throw new Fault('command.two-scales', 'Use --printer, or --scale-across and --scale-down, not both.');
  if (printer !== undefined) return atOption('--printer', () => findPrinter(printer, knownPrinters()));
  if (!isTyped) return undefined;
  return {
    across: atOption('--scale-across', () => parseScale(scaleAcross ?? '100%')),
    down: atOption('--scale-down', () => parseScale(scaleDown ?? '100%')),
  };
}

function parseMargin(typed: string, unit: Unit): Margin {
  const sides = typed.split(',').map((side) => parseLength(side, unit, 'not-negative'));
  const [top = 0, right = 0, bottom = 0, left = 0] = sides;
  if (sides.length === 1) return top;
  if (sides.length === 4) return { top, right, bottom, left };
  const wording = `"${typed}" has ${sides.length} lengths. Give one for all sides, or four as top,right,bottom,left. Write decimals with a point.`;
  throw new Fault('command.margin', wording);
}

function parseTurn(typed: string): 'auto' | number {
  if (typed === 'auto') return 'auto';
  const degrees = Number(typed);
  if (/^-?\d+(\.\d+)?$/.test(typed) && Math.abs(degrees) <= 360) return degrees;
  throw new Fault('command.turn', `"${typed}" is not an angle. Use auto, or degrees such as 90.`, '--turn');
}

function parseMaxSheets(typed = String(DEFAULT_MAX_SHEETS)): number {
  const count = Number(typed);
  if (/^\d+$/.test(typed) && count >= 1 && count <= MAX_SHEETS) return count;
  const wording = `"${typed}" is not a number of sheets. Use a whole number from 1 to ${MAX_SHEETS}.`;
  throw new Fault('command.max-sheets', wording, '--max-sheets');
}
