import { basename, extname } from 'node:path';
import { Command } from 'commander';
import type { Part } from '../part/part.ts';
import {
  DEFAULT_MARGIN_MM,
  DEFAULT_MAX_SHEETS,
  DEFAULT_OVERLAP_MM,
  layOut,
  MOST_SHEETS,
} from '../tiling/lay-out.ts';
import type { Layout } from '../tiling/layout.ts';
import { pageMatrix } from '../tiling/page-matrix.ts';
import { type Paper, parsePaper } from '../tiling/paper.ts';
import { Fault } from '../units/fault.ts';
import type { Unit } from '../units/unit.ts';
import { mustBeFree, nameAfter, streamWhole } from './files.ts';
import { readFont } from './font.ts';
import { type Given, readGiven, takesJob, warn } from './job-input.ts';
import { pair, printJson } from './json.ts';
import { atOption, lengthAt } from './option.ts';
import { progressOver } from './progress.ts';
import { speakingOf } from './report.ts';

interface PrintOptions {
  readonly output?: string;
  readonly paper?: string;
  readonly margin?: string;
  readonly overlap?: string;
  readonly turn: string;
  readonly maxSheets?: string;
  readonly cover: boolean;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** The sheet most printers hold where people measure in that unit. */
const USUAL_PAPER: Record<Unit, string> = { in: 'letter', mm: 'a4' };

/** `fairlath print JOB -o FILE.pdf`: the full-size pattern over ordinary sheets. */
export const printCommand = (): Command =>
  takesJob(new Command('print'))
    .description('print the part full size over ordinary sheets that tape up true')
    .option('-o, --output <FILE>', 'the PDF to write (the job’s name in the current folder)')
    .option(
      '--paper <size>',
      'letter, a4, legal, tabloid, a3 or a size such as 13x19in (letter, or a4 for a job in mm)',
    )
    .option('--margin <length>', 'paper left white all round (1/2 in: few printers reach closer)')
    .option('--overlap <length>', 'what neighbouring sheets share (15 mm)')
    .option(
      '--turn <degrees>',
      'turn the part on the paper: auto (only where it saves a sheet), or degrees',
      'auto',
    )
    .option('--max-sheets <count>', 'refuse a pattern of more sheets (200)')
    .option('--no-cover', 'leave out the page with the map, the taping steps and the measures')
    .option('--force', 'replace a file that is not one of ours')
    .addHelpText(
      'after',
      `
Print at 100 % ("actual size"), on one side, and measure the bars before you tape.

Examples:
  $ fairlath print samples/hall-bench-leg.yaml
  $ fairlath print samples/garden-arch-rail.yaml --paper a4 -o rail.pdf
  $ fairlath print --curve batten --chord 28 --rise 3/4 --nail 12 --paper legal --no-cover
`,
    )
    .action(async (file: string | undefined, options: PrintOptions) => {
      const given = readGiven(file, { ...options });
      const output = options.output ?? defaultOutput(given);
      mustBeFree(output, given.file, isOurPdf, options.force ?? false);
      const layout = speakingOf({ ...given.speaker, places: new Map() }, () => layOutAs(given.part, options));
      const { pageNames } = await import('../export/patterns.ts');
      const { streamPatternPdf } = await import('../export/pdf.ts');
      const pages = pageNames(given.part, layout, options.cover);
      const wrote = options.json ? undefined : progressOver(pages.length);
      streamWhole(output, (write) =>
        streamPatternPdf(given.part, layout, { font: readFont(), cover: options.cover, wrote }, write),
      );
      warn(given.part);
      if (options.json) printJson('print', given.part, asJson(layout, pages, output));
      else console.log(asText(given.part, layout, options.cover, output));
    });

function defaultOutput({ file, part }: Given): string {
  return file === undefined ? nameAfter(part.name, '.pdf') : `${basename(file, extname(file))}.pdf`;
}

function layOutAs(part: Part, options: PrintOptions): Layout {
  const { unit } = part.rule;
  const length = (option: 'margin' | 'overlap', otherwise: number): number => {
    const typed = options[option];
    return typed === undefined ? otherwise : lengthAt(`--${option}`, typed, unit, 'not-negative');
  };
  return layOut(part, {
    paper: atOption('--paper', () => parsePaper(options.paper ?? USUAL_PAPER[unit])),
    margin: length('margin', DEFAULT_MARGIN_MM),
    overlap: length('overlap', DEFAULT_OVERLAP_MM),
    turn: turnOf(options.turn),
    maxSheets: sheetsOf(options.maxSheets),
  });
}

function turnOf(typed: string): 'auto' | number {
  if (typed === 'auto') return 'auto';
  const degrees = /^-?\d+(\.\d+)?$/.test(typed) ? Number(typed) : Number.NaN;
  if (!(Math.abs(degrees) <= 360))
    throw new Fault('command.turn', `"${typed}" is no turn. Write auto, or degrees such as 90.`, '--turn');
  return degrees;
}

function sheetsOf(typed: string | undefined): number {
  if (typed === undefined) return DEFAULT_MAX_SHEETS;
  const count = /^\d+$/.test(typed) ? Number(typed) : Number.NaN;
  if (!(count >= 1 && count <= MOST_SHEETS))
    throw new Fault(
      'command.max-sheets',
      `"${typed}" is no number of sheets. Write a whole number from 1 to ${MOST_SHEETS}.`,
      '--max-sheets',
    );
  return count;
}

/** A PDF of ours names us as its producer; anything else is left alone. */
function isOurPdf(bytes: Buffer): boolean {
  const text = bytes.toString('latin1');
  const producer = /\/Producer (\d+) 0 R/.exec(text)?.[1];
  return text.startsWith('%PDF-') && new RegExp(`\\n${producer} 0 obj\\s*\\(fairlath\\)`).test(text);
}

const asJson = (layout: Layout, pages: readonly string[], file: string): object => ({
  file,
  paper: layout.paper.name,
  orientation: layout.orientation,
  turnDeg: layout.turnDeg,
  plainSheets: layout.plainSheets,
  lowerBound: layout.lowerBound,
  code: layout.code,
  sheets: layout.sheets.map((sheet) => ({
    name: sheet.name,
    page: pages.indexOf(sheet.name) + 1,
    toPage: pageMatrix(sheet),
  })),
  checks: layout.checks.map(({ label, from, to, length }) => ({
    label,
    from: pair(from),
    to: pair(to),
    length,
  })),
});

function asText(part: Part, layout: Layout, cover: boolean, output: string): string {
  const count = layout.sheets.length;
  const saved = layout.plainSheets > count ? ` instead of ${layout.plainSheets}` : '';
  const turned = layout.turnDeg === 0 ? '' : `, the part turned ${layout.turnDeg}°`;
  const sheets = `${count} ${count === 1 ? 'sheet' : 'sheets'}${saved} of ${paperName(layout.paper)}, ${layout.orientation === 'upright' ? 'upright' : 'lying on the side'}${turned}`;
  return [
    `${part.name}: ${sheets}${cover ? ', and a cover' : ''}.`,
    `Pattern ${layout.code} is in ${output}`,
    'Print it at 100 % ("actual size", no fitting to the page), on one side of the paper.',
    `Then measure the bars on every sheet before you tape them up${cover ? '; the cover shows how' : ''}.`,
  ].join('\n');
}

const paperName = ({ name }: Paper): string => (/^[a-z]\d$/.test(name) ? name.toUpperCase() : name);
