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
import { atOption, optionOwnerFault, parseLengthOption } from './option-values.ts';

/** The options of print that say how the part is laid over its sheets, as typed. */
export interface SheetLayoutOptions {
  readonly paper?: string;
  readonly margin?: string;
  readonly overlap?: string;
  readonly turn: string;
  readonly maxSheets?: string;
  readonly printer?: string;
  readonly scaleAcross?: string;
  readonly scaleDown?: string;
}

/** What is printed instead of the whole pattern, one of them. */
export interface PrintTarget {
  readonly half?: boolean;
  readonly gauge?: boolean;
  readonly template?: boolean;
  readonly form?: boolean;
}

/** Options that only one of these has a use for. */
const OPTION_OWNERS: Readonly<Record<string, readonly ('gauge' | 'template' | 'form')[]>> = {
  every: ['gauge'],
  from: ['gauge'],
  edge: ['gauge', 'form'],
  bush: ['template'],
  bearing: ['template'],
  bit: ['template'],
  opening: ['template'],
  thickness: ['form'],
  plies: ['form'],
  species: ['form'],
};

/** @throws Fault `command.two-prints`, `command.no-half`, `command.belongs` */
export function requireOneTarget(options: PrintTarget): void {
  const { half, gauge, template, form } = options;
  const asked = Object.entries({ gauge, template, form }).filter(([, on]) => on);
  const [one, other] = asked.map(([name]) => `--${name}`);
  if (one && other)
    throw new Fault(
      'command.two-prints',
      `${one} and ${other} exclude each other: each is a print of its own. Print one, then the other.`,
    );
  for (const [option, users] of Object.entries(OPTION_OWNERS))
    if ((options as Record<string, unknown>)[option] !== undefined && !users.some((user) => options[user]))
      throw optionOwnerFault(option, ...users);
  if (half && (gauge || form))
    throw new Fault(
      'command.no-half',
      gauge
        ? '--half: a gauge is walked along the whole part. Leave --half out.'
        : '--half: a form is built in one piece, clamps and all. Leave --half out.',
    );
}

/** @throws Fault of each option, with its name as the key */
export function readSheetOptions({ rule }: Part, options: SheetLayoutOptions): LayOutOptions {
  const { unit } = rule;
  const { paper, margin, overlap } = options;
  const printer = readPrinterScale(options);
  return {
    paper: atOption('--paper', () => parsePaper(paper ?? DEFAULT_PAPER[unit])),
    margin: margin === undefined ? DEFAULT_MARGIN_MM : atOption('--margin', () => parseMargin(margin, unit)),
    overlap:
      overlap === undefined
        ? DEFAULT_OVERLAP_MM
        : parseLengthOption('--overlap', overlap, unit, 'not-negative'),
    ...(printer && { printer }),
    turn: parseTurn(options.turn),
    maxSheets: parseMaxSheets(options.maxSheets),
  };
}

/** How the pattern's printer prints; undefined when nothing is said of it. */
function readPrinterScale({ printer, scaleAcross, scaleDown }: SheetLayoutOptions): PrinterScale | undefined {
  const isTyped = scaleAcross !== undefined || scaleDown !== undefined;
  if (printer !== undefined && isTyped)
    throw new Fault(
      'command.two-scales',
      '--printer and --scale-across or --scale-down exclude each other. Name the printer, or give its scale.',
    );
  if (printer !== undefined) return atOption('--printer', () => findPrinter(printer, knownPrinters()));
  if (!isTyped) return undefined;
  return {
    across: atOption('--scale-across', () => parseScale(scaleAcross ?? '100%')),
    down: atOption('--scale-down', () => parseScale(scaleDown ?? '100%')),
  };
}

/** One length for all sides, or "top,right,bottom,left", clockwise from the top of the upright paper. */
function parseMargin(typed: string, unit: Unit): Margin {
  const sides = typed.split(',').map((side) => parseLength(side, unit, 'not-negative'));
  const [top, right, bottom, left] = sides;
  if (top !== undefined && sides.length === 1) return top;
  if (sides.length !== 4)
    throw new Fault(
      'command.margin',
      `"${typed}" has ${sides.length} lengths. Give one for all sides, or four as top,right,bottom,left; write decimals with a point.`,
    );
  return { top: top!, right: right!, bottom: bottom!, left: left! };
}

function parseTurn(typed: string): 'auto' | number {
  if (typed === 'auto') return 'auto';
  const degrees = /^-?\d+(\.\d+)?$/.test(typed) ? Number(typed) : Number.NaN;
  if (!(Math.abs(degrees) <= 360))
    throw new Fault('command.turn', `"${typed}" is no turn. Write auto, or degrees such as 90.`, '--turn');
  return degrees;
}

function parseMaxSheets(typed: string | undefined): number {
  if (typed === undefined) return DEFAULT_MAX_SHEETS;
  const count = /^\d+$/.test(typed) ? Number(typed) : Number.NaN;
  if (!(count >= 1 && count <= MAX_SHEETS))
    throw new Fault(
      'command.max-sheets',
      `"${typed}" is no number of sheets. Write a whole number from 1 to ${MAX_SHEETS}.`,
      '--max-sheets',
    );
  return count;
}
