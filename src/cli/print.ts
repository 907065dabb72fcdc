import { basename, extname } from 'node:path';
import { Command } from 'commander';
import { nameAfter } from '../export/file-name.ts';
import { halfOf } from '../part/half.ts';
import type { Part } from '../part/part.ts';
import { expectedError } from '../tiling/expected-error.ts';
import { layOut } from '../tiling/lay-out.ts';
import type { Layout } from '../tiling/layout.ts';
import { pageMatrix } from '../tiling/page-matrix.ts';
import type { Paper } from '../tiling/paper.ts';
import { scaleWords } from '../tiling/printer-scale.ts';
import { mustBeFree, streamWhole } from './files.ts';
import { readFont } from './font.ts';
import { type Given, readGiven, takesJob, warn } from './job-input.ts';
import { pair, printJson } from './json.ts';
import { atOption } from './option.ts';
import { isOurPdf } from './our-pdf.ts';
import { type SheetOptions, sheetOptions } from './print-options.ts';
import { progressOver } from './progress.ts';
import { speakingOf } from './report.ts';

interface PrintOptions extends SheetOptions {
  readonly output?: string;
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
    .option(
      '--turn <degrees>',
      'turn the part on the paper: auto (only where it saves a sheet), or degrees',
      'auto',
    )
    .option('--max-sheets <count>', 'refuse a pattern of more sheets (200)')
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
      const { part, ...given } = options.half ? halved(whole) : whole;
      const output = options.output ?? defaultOutput({ part, ...given });
      mustBeFree(output, given.file, isOurPdf, options.force ?? false);
      const layout = speakingOf({ ...given.speaker, places: new Map() }, () =>
        layOut(part, sheetOptions(part, options)),
      );
      const { pageNames } = await import('../export/patterns.ts');
      const { streamPatternPdf } = await import('../export/pdf.ts');
      const { cover } = options;
      const pages = pageNames(part, layout, cover);
      const wrote = options.json ? undefined : progressOver(pages.length);
      streamWhole(output, (write) =>
        streamPatternPdf(part, layout, { font: readFont(), cover, wrote }, write),
      );
      warn(part);
      if (options.json) printJson('print', part, asJson(part, layout, pages, output));
      else console.log(asText(part, layout, cover, output));
    });

/** Places are left out: which edge is meant, its name says. */
const halved = (given: Given): Given => ({
  ...given,
  part: speakingOf({ ...given.speaker, places: new Map() }, () =>
    atOption('--half', () => halfOf(given.part)),
  ),
});

function defaultOutput({ file, part }: Given): string {
  return file === undefined ? nameAfter(part.name, '.pdf') : `${basename(file, extname(file))}.pdf`;
}

const asJson = (part: Part, layout: Layout, pages: readonly string[], file: string): object => ({
  file,
  paper: layout.paper.name,
  orientation: layout.orientation,
  turnDeg: layout.turnDeg,
  plainSheets: layout.plainSheets,
  lowerBound: layout.lowerBound,
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
  const saved = layout.plainSheets > count ? ` instead of ${layout.plainSheets}` : '';
  const turned = layout.turnDeg === 0 ? '' : `, the part turned ${layout.turnDeg}°`;
  const lies = layout.orientation === 'upright' ? 'upright' : 'lying on the side';
  const sheets = `${count} ${count === 1 ? 'sheet' : 'sheets'}${saved} of ${paperName(layout.paper)}, ${lies}${turned}`;
  return [
    `${part.name}${part.shape.type === 'half' ? ', one half to flip on its centre line' : ''}: ${sheets}${cover ? ', and a cover' : ''}.`,
    `Pattern ${layout.code} is in ${output}`,
    ...(layout.printer ? [`Made good: a printer that prints ${scaleWords(layout.printer)}.`] : []),
    'Print it at 100 % ("actual size", no fitting to the page), on one side of the paper.',
    `Then measure the bars on every sheet before you tape them up${cover ? '; the cover shows how' : ''}.`,
  ].join('\n');
}

const paperName = ({ name }: Paper): string => (/^[a-z]\d$/.test(name) ? name.toUpperCase() : name);
