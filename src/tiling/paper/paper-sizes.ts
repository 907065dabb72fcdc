import { editDistance } from '../../job/parse/did-you-mean.ts';
import { Fault } from '../../units/fault.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';

export type Orientation = 'upright' | 'lying';

export const ORIENTATION_TEXT: Readonly<Record<Orientation, string>> = {
  upright: 'portrait',
  lying: 'landscape',
};

/** A sheet size, mm, standing upright. */
export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** Paper off a roll: `height` is the longest page, and pages are cut to the length they need. */
  readonly roll?: true;
}

const inchPaper = (name: string, width: number, height: number): Paper => {
  return { name, width: width * MM_PER_INCH, height: height * MM_PER_INCH };
};

/** A4 and A3: ISO 216. Letter and tabloid: sizes A and B of ANSI/ASME Y14.1. Legal: by custom. */
export const PAPERS: readonly Paper[] = [
  inchPaper('letter', 8.5, 11),
  inchPaper('legal', 8.5, 14),
  inchPaper('tabloid', 11, 17),
  { name: 'a4', width: 210, height: 297 },
  { name: 'a3', width: 297, height: 420 },
];

export const PAPER_NAMES = PAPERS.map(({ name }) => name).join(', ');

/** The sheet most printers hold where people measure in that unit. */
export const DEFAULT_PAPER: Readonly<Record<Unit, string>> = { in: 'letter', mm: 'a4' };

/** The longest page PDF readers must take: 14,400 units of 1/72 in (ISO 32000-1, Annex C.2). */
export const MAX_PAGE_MM = 200 * MM_PER_INCH;

/** A shorter sheet has no room for its 100 mm scale bars. */
const MIN_PAPER_MM = 100;

const SIZE = /^(\d*\.?\d+)\s*(in|mm|cm)?\s*[x×]\s*(\d*\.?\d+)\s*(in|mm|cm)?$/i;
const ROLL = /^roll\s*:\s*(\d*\.?\d+)\s*(in|mm|cm)?$/;
const MM_PER_UNIT: Readonly<Record<string, number>> = { in: MM_PER_INCH, mm: 1, cm: 10 };

/**
 * A paper by name, by size ("13x19in", "300mmx400mm"), upright, or off a roll of some width ("roll:24in").
 * @throws Fault `paper.unknown`, `paper.no-unit`, `paper.too-small`, `paper.too-large`
 */
export function parsePaper(text: string): Paper {
  const plain = text.trim().toLowerCase();
  const named = PAPERS.find(({ name }) => name === plain);
  if (named) return named;
  const roll = ROLL.exec(plain);
  if (roll) return parseRollWidth(text.trim(), roll);
  const size = SIZE.exec(plain);
  return size ? parseSheetSize(text.trim(), size) : unknownPaper(text.trim());
}

function parseSheetSize(text: string, [, across, acrossUnit, down, downUnit]: RegExpExecArray): Paper {
  const [a, b] = [MM_PER_UNIT[acrossUnit ?? downUnit ?? ''], MM_PER_UNIT[downUnit ?? acrossUnit ?? '']];
  if (a === undefined || b === undefined) throw noUnitFault(text, `${across}x${down}`);
  const sides = [Number(across) * a, Number(down) * b];
  const [width, height] = [Math.min(...sides), Math.max(...sides)];
  validateSize(text, width, height);
  return { name: sizeName(width, height, acrossUnit ?? downUnit), width, height };
}

function parseRollWidth(text: string, [, width, unit]: RegExpExecArray): Paper {
  const size = MM_PER_UNIT[unit ?? ''];
  if (size === undefined) throw noUnitFault(text, `roll:${width}`);
  const across = Number(width) * size;
  validateSize(text, across, across);
  return { name: `roll:${Number(width)}${unit}`, width: across, height: MAX_PAGE_MM, roll: true };
}

const noUnitFault = (text: string, bare: string): Fault =>
  new Fault('paper.no-unit', `paper "${text}" has no unit. Write ${bare}in or ${bare}mm.`);

function sizeName(width: number, height: number, unit = 'mm'): string {
  const size = (mm: number): number => Number((mm / (MM_PER_UNIT[unit] ?? 1)).toFixed(3));
  return `${size(width)}x${size(height)}${unit}`;
}

function validateSize(text: string, width: number, height: number): void {
  if (width < MIN_PAPER_MM)
    throw new Fault(
      'paper.too-small',
      (length) =>
        `paper "${text}" is ${length(width)} wide. Use ${length(MIN_PAPER_MM)} or more: the scale bars need it.`,
    );
  if (height > MAX_PAGE_MM)
    throw new Fault(
      'paper.too-large',
      (length) =>
        `paper "${text}" is ${length(height)} on its long side. Use ${length(MAX_PAGE_MM)} or less, the longest page a PDF may have.`,
    );
}

/** One slip in a short name: two would turn "a4" into "b5". */
const MAX_SLIPS = 1;

function unknownPaper(text: string): never {
  const near = PAPERS.find(({ name }) => editDistance(name, text.toLowerCase()) <= MAX_SLIPS);
  const hint = near ? `Did you mean "${near.name}"? ` : '';
  throw new Fault(
    'paper.unknown',
    `"${text}" is not a known paper size. ${hint}Use ${PAPER_NAMES}, a size such as 13x19in or 329x483mm, or a roll such as roll:24in.`,
  );
}

/** "A4", "letter", "329 × 483 mm", "24-inch roll". */
export const paperTitle = ({ name }: Paper): string =>
  name
    .replace(/^a\d$/, (size) => size.toUpperCase())
    .replace(
      /^roll:([\d.]+)(\w+)$/,
      (_, width: string, unit: string) => `${width}${unit === 'in' ? '-inch' : ` ${unit}`} roll`,
    )
    .replace(/^([\d.]+)x([\d.]+)in$/, '$1 × $2 inch')
    .replace(/^([\d.]+)x([\d.]+)mm$/, '$1 × $2 mm');
