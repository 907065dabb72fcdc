import { basename, extname } from 'node:path';
import { Command } from 'commander';
import { halfOf } from '../part/half.ts';
import type { Part } from '../part/part.ts';
import { expectedError } from '../tiling/expected-error.ts';
import { DEFAULT_MARGIN_MM, DEFAULT_OVERLAP_MM, layOut } from '../tiling/lay-out.ts';
import type { Layout } from '../tiling/layout.ts';
import type { Margin } from '../tiling/margins.ts';
import { pageMatrix } from '../tiling/page-matrix.ts';
import { type Paper, parsePaper, USUAL_PAPER } from '../tiling/paper.ts';
import { type PrinterScale, parseScale, scaleWords } from '../tiling/printer-scale.ts';
import { printerNamed } from '../tiling/printers.ts';
import { Fault } from '../units/fault.ts';
import { parseLength } from '../units/length.ts';
import type { Unit } from '../units/unit.ts';
import { mustBeFree, nameAfter, writeWhole } from './files.ts';
import { type Given, readGiven, takesJob, warn } from './job-input.ts';
import { pair, printJson } from './json.ts';
import { isOurPdf, readFont } from './pdf-files.ts';
import { placed } from './placed.ts';
import { knownPrinters } from './printers-file.ts';
import { speakingOf } from './report.ts';

interface PrintOptions {
  readonly output?: string;
  readonly paper?: string;
  readonly margin?: string;
  readonly overlap?: string;
  readonly turn: string;
  readonly printer?: string;
  readonly scaleAcross?: string;
  readonly scaleDown?: string;
  readonly half?: boolean;
  readonly cover: boolean;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** `fairlath print JOB -o FILE.pdf`: the full-size pattern over ordinary sheets. */
export const printCommand = (): Command =>
  takesJob(new Command('print'))
    .description('print the part full size over ordinary sheets that tape up true')
    .option('-o, --output <FILE>', 'the PDF to write (the job’s name in the current folder)')
    .option(
      '--paper <size>',
      'letter, a4, legal, tabloid, a3, a size such as 13x19in, or a roll such as roll:24in (letter, or a4 for a job in mm)',
    )
    .option(
      '--margin <length>',
      'paper left white: one length all round, or "top,right,bottom,left" of the upright paper (1/2 in: few printers reach closer)',
    )
    .option('--overlap <length>', 'what neighbouring sheets share (15 mm)')
    .option('--turn <degrees>', 'turn the part on the paper: auto, 0, 90 or any angle', 'auto')
    .option('--printer <name>', 'make good what this printer was measured to be off (see printer)')
    .option(
      '--scale-across <measured>',
      'the same by hand: what the printer makes of 200 mm across the paper, or of 100 %',
    )
    .option('--scale-down <measured>', 'the same down the paper, along its long side')
    .option('--half', 'of a part alike left and right of its middle: one half, with a centre line to flip on')
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
  $ fairlath print samples/garden-arch-rail.yaml --half -o half-rail.pdf
  $ fairlath print samples/hall-bench-leg.yaml --paper roll:24in --margin "1/4, 1/4, 3/4, 1/4" -o roll.pdf
  $ fairlath print samples/hall-bench-leg.yaml --scale-across 199.4mm --scale-down 100.3% -o corrected.pdf
`,
    )
    .action(async (file: string | undefined, options: PrintOptions) => {
      const whole = readGiven(file, { ...options });
      const given = options.half ? halved(whole) : whole;
      const output = options.output ?? defaultOutput(given);
      mustBeFree(output, given.file, isOurPdf, options.force ?? false);
      const layout = speakingOf({ ...given.speaker, places: new Map() }, () => layOutAs(given.part, options));
      const { pageNames } = await import('../export/patterns.ts');
      const { writePatternPdf } = await import('../export/pdf.ts');
      writeWhole(
        output,
        await writePatternPdf(given.part, layout, { font: readFont(), cover: options.cover }),
      );
      warn(given.part);
      if (options.json)
        printJson(
          'print',
          given.part,
          asJson(given.part, layout, pageNames(given.part, layout, options.cover), output),
        );
      else console.log(asText(given.part, layout, options.cover, output));
    });

/** Places are left out: which edge is meant, its name says. */
const halved = (given: Given): Given => ({
  ...given,
  part: speakingOf({ ...given.speaker, places: new Map() }, () => placed('--half', () => halfOf(given.part))),
});

function defaultOutput({ file, part }: Given): string {
  return file === undefined ? nameAfter(part.name, '.pdf') : `${basename(file, extname(file))}.pdf`;
}

function layOutAs(part: Part, options: PrintOptions): Layout {
  const { unit } = part.rule;
  const { margin, overlap } = options;
  const printer = printerOf(options);
  return layOut(part, {
    paper: placed('--paper', () => parsePaper(options.paper ?? USUAL_PAPER[unit])),
    margin: margin === undefined ? DEFAULT_MARGIN_MM : placed('--margin', () => marginOf(margin, unit)),
    overlap:
      overlap === undefined
        ? DEFAULT_OVERLAP_MM
        : placed('--overlap', () => parseLength(overlap, unit, 'not-negative')),
    ...(printer && { printer }),
    turn: turnOf(options.turn),
  });
}

/** How the pattern's printer prints; undefined when nothing is said of it. */
function printerOf({ printer, scaleAcross, scaleDown }: PrintOptions): PrinterScale | undefined {
  const isTyped = scaleAcross !== undefined || scaleDown !== undefined;
  if (printer !== undefined && isTyped)
    throw new Fault(
      'command.two-scales',
      '--printer and --scale-across or --scale-down exclude each other. Name the printer, or give its scale.',
    );
  if (printer !== undefined) return placed('--printer', () => printerNamed(printer, knownPrinters()));
  if (!isTyped) return undefined;
  return {
    across: placed('--scale-across', () => parseScale(scaleAcross ?? '100%')),
    down: placed('--scale-down', () => parseScale(scaleDown ?? '100%')),
  };
}

/** One length for all sides, or "top,right,bottom,left", clockwise from the top of the upright paper. */
function marginOf(typed: string, unit: Unit): Margin {
  const sides = typed.split(',').map((side) => parseLength(side, unit, 'not-negative'));
  const [top, right, bottom, left, ...more] = sides;
  if (top !== undefined && right === undefined) return top;
  if (
    top === undefined ||
    right === undefined ||
    bottom === undefined ||
    left === undefined ||
    more.length > 0
  )
    throw new Fault(
      'command.margin',
      `"${typed}" has ${sides.length} lengths. Give one for all sides, or four as top,right,bottom,left; write decimals with a point.`,
    );
  return { top, right, bottom, left };
}

function turnOf(typed: string): 'auto' | number {
  if (typed === 'auto') return 'auto';
  const degrees = /^-?\d+(\.\d+)?$/.test(typed) ? Number(typed) : Number.NaN;
  if (!(Math.abs(degrees) <= 360))
    throw new Fault('command.turn', `"${typed}" is no turn. Write auto, or degrees such as 90.`, '--turn');
  return degrees;
}

const asJson = (part: Part, layout: Layout, pages: readonly string[], file: string): object => ({
  file,
  paper: layout.paper.name,
  orientation: layout.orientation,
  turnDeg: layout.turnDeg,
  code: layout.code,
  ...(layout.printer && { printer: layout.printer }),
  ...(part.shape.type === 'half' && { half: { centreLine: part.shape.centre.map(pair) } }),
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
    tolerance: expectedError(layout, from, to),
  })),
});

function asText(part: Part, layout: Layout, cover: boolean, output: string): string {
  const count = layout.sheets.length;
  const sheets = `${count} ${count === 1 ? 'sheet' : 'sheets'} of ${paperName(layout.paper)}, ${layout.orientation === 'upright' ? 'upright' : 'lying on the side'}`;
  return [
    `${part.name}${part.shape.type === 'half' ? ', one half to flip on its centre line' : ''}: ${sheets}${cover ? ', and a cover' : ''}.`,
    `Pattern ${layout.code} is in ${output}`,
    ...(layout.printer ? [`Made good: a printer that prints ${scaleWords(layout.printer)}.`] : []),
    'Print it at 100 % ("actual size", no fitting to the page), on one side of the paper.',
    `Then measure the bars on every sheet before you tape them up${cover ? '; the cover shows how' : ''}.`,
  ].join('\n');
}

const paperName = ({ name }: Paper): string => (/^[a-z]\d$/.test(name) ? name.toUpperCase() : name);
