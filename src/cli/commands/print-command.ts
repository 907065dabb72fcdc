import { basename, extname } from 'node:path';
import { Command } from 'commander';
import { nameAfter } from '../../export/drawing/file-name.ts';
import { halfOf } from '../../part/derived/half-pattern.ts';
import type { Part } from '../../part/part.ts';
import { expectedError } from '../../tiling/expected-error.ts';
import type { Layout } from '../../tiling/layout.ts';
import { layOutMirrored } from '../../tiling/mirrored-layout.ts';
import { pageMatrix } from '../../tiling/paper/page-matrix.ts';
import { paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { scaleWords } from '../../tiling/paper/printer-scale.ts';
import { type LayOutOptions, layOut } from '../../tiling/tile.ts';
import { mustBeFree, streamWhole } from '../files/atomic-files.ts';
import { mustEnd } from '../files/file-extension.ts';
import { readFont } from '../files/load-font.ts';
import { isOurPdf } from '../files/own-files.ts';
import { type Given, readGiven, takesJob, warn } from '../options/job-input.ts';
import { atOption } from '../options/option-values.ts';
import {
  edgeOption,
  everyOption,
  forceOption,
  fromOption,
  outputOption,
  paperOption,
  speciesOption,
} from '../options/shared-options.ts';
import { mustBeOneThing, type SheetOptions, sheetOptions, type What } from '../options/sheet-options.ts';
import { pair, printJson } from '../output/json-output.ts';
import { progressOver } from '../output/print-progress.ts';
import { ofOptions, speakingLater } from '../output/report-errors.ts';
import { say } from '../output/stdout.ts';
import type { Printed } from '../print/prepared-print.ts';
import { type FormOptions, printedForm } from '../print/print-form.ts';
import { type GaugeOptions, printedGauge } from '../print/print-gauge.ts';
import { printedTemplate, type TemplateOptions } from '../print/print-template.ts';

interface PrintOptions extends SheetOptions, GaugeOptions, FormOptions, Omit<TemplateOptions, 'half'>, What {
  readonly output?: string;
  readonly cover: boolean;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** How the part is laid over its sheets. */
const sheets = (command: Command): Command =>
  command
    .summary('the part full size, over sheets that tape up true')
    .description('Print the part full size, as a PDF over ordinary sheets that tape up true, with a cover.')
    .addOption(outputOption('the PDF to write (default: the job’s name with .pdf, in the current folder)'))
    .addOption(paperOption('letter, or a4 for a job in mm'))
    .option(
      '--margin <length>',
      'paper left white: one length all round, or four as "top, right, bottom, left" of the upright paper ' +
        '(default: 1/2 in; few printers reach closer)',
    )
    .option('--overlap <length>', 'what neighbouring sheets share (default: 15 mm)')
    .option(
      '--turn <degrees>',
      'turn the part on the paper by so much, or auto, only where that saves a sheet (default: auto)',
      'auto',
    )
    .option('--max-sheets <count>', 'refuse a pattern of more sheets than this (default: 200)')
    .option(
      '--printer <name>',
      'make good what this printer was measured to be off; see fairlath printer --help',
    )
    .option(
      '--scale-across <measured>',
      'the same by hand: what 200 mm across the paper measure as printed, or a percentage (default: 100 %)',
    )
    .option('--scale-down <measured>', 'the same down the paper, along its long side (default: 100 %)')
    .option(
      '--half',
      'of a part alike left and right of its middle: one half, with a centre line to flip it on',
    )
    .option('--no-cover', 'leave out the page with the map, the taping steps and the measures')
    .addOption(forceOption());

/** What is printed in place of the part, one of them. */
const otherPrints = (command: Command): Command =>
  command
    .optionsGroup('Instead of the pattern, one of:')
    .option('--gauge', 'strips for a story stick: the stations at true size, with the offsets to read there')
    .addOption(everyOption())
    .addOption(fromOption())
    .option(
      '--template',
      'a template for the router, smaller all round than the part; needs --bit, and --bush or --bearing',
    )
    .option('--bit <diameter>', 'of the router bit')
    .option('--bush <diameter>', 'outside diameter of the guide bush')
    .option('--bearing <diameter>', 'of the bearing on the bit')
    .option('--opening', 'the template as an opening, for a recess of the part’s shape: larger all round')
    .option(
      '--form',
      'the form to laminate an edge on, sharper by what springs back; needs --thickness, --plies or both',
    )
    .option('--thickness <length>', 'of all plies together (default: each ply as thick as is safe)')
    .option('--plies <count>', 'how many (default: the fewest that are safe)')
    .addOption(speciesOption('the plies'))
    .addOption(edgeOption('for --gauge, of this edge only; for --form, the edge its face touches'))
    .optionsGroup('Options:');

/** `fairlath print JOB -o FILE.pdf`: the full-size pattern over ordinary sheets. */
export const makeCommand = (): Command =>
  takesJob(otherPrints(sheets(new Command('print'))), {
    notes: [
      'Print at 100 % ("actual size", no fitting to the page), on one side, and measure the bars on every sheet before ' +
        'you tape.',
      'Real wood and glue spring back by more or less than the form allows for: bend a trial piece.',
    ],
    files:
      'Reads JOB and, for --printer, fairlath/printers.yaml in your settings folder ($XDG_CONFIG_HOME or ~/.config). ' +
      'Writes the PDF.',
    care: 'Measure what the cover lists before you cut any wood. With a saw or a router, its manual comes first.',
    examples: [
      'fairlath print samples/hall-bench-leg.yaml',
      'fairlath print samples/garden-arch-rail.yaml --paper a4 --half -o half-rail.pdf',
      'fairlath print samples/hall-bench-leg.yaml --paper roll:24in -o roll.pdf',
      'fairlath print samples/hall-bench-leg.yaml --margin "1/4, 1/4, 3/4, 1/4"',
      'fairlath print samples/hall-bench-leg.yaml --scale-across 199.4mm -o corrected.pdf',
      'fairlath print --curve batten --chord 28 --rise 3/4 --nail 12 --no-cover',
      'fairlath print samples/hall-bench-leg.yaml --gauge --every 2 -o gauge.pdf',
      'fairlath print samples/hall-bench-leg.yaml --template --bush 5/8 --bit 1/2',
      'fairlath print samples/garden-arch-rail.yaml --form --edge lower --thickness 75',
    ],
  }).action(async (file: string | undefined, options: PrintOptions) => {
    mustBeOneThing(options);
    const given = readGiven(file, { ...options });
    const output = options.output ?? defaultOutput(given);
    mustBeFree(output, given.file, isOurPdf, options.force ?? false);
    mustEnd(output, '.pdf');
    const printed = await speakingLater(ofOptions(given.speaker), () => whatToPrint(given.part, options));
    const { streamPdf } = await import('../../export/writers/pdf.ts');
    const { title, pages, names } = printed;
    const codes = layoutsOf(printed).map(({ code }) => code);
    const wrote = options.json ? undefined : progressOver(names.length);
    streamWhole(output, (write) =>
      streamPdf(pages, `${title}, ${codes.join(' and ')}`, { font: readFont(), wrote }, write),
    );
    const part = { ...printed.part, warnings: [...given.part.warnings, ...(printed.warnings ?? [])] };
    warn(part);
    if (options.json) printJson('print', part, asJson(printed, output));
    else say(asText(printed, options.cover, output));
  });

/** What the options make of the part. */
async function whatToPrint(part: Part, options: PrintOptions): Promise<Printed> {
  const sheets = sheetOptions(part, options);
  if (options.gauge) return printedGauge(part, options, sheets, options.cover);
  if (options.template) return printedTemplate(part, options, sheets, options.cover);
  if (options.form) return printedForm(part, options, sheets, options.cover);
  return printedPattern(options.half ? atOption('--half', () => halfOf(part)) : part, sheets, options.cover);
}

async function printedPattern(part: Part, sheets: LayOutOptions, cover: boolean): Promise<Printed> {
  const { patternsPages } = await import('../../export/sheets/pattern-pages.ts');
  const { needsMirrorImage, pairWords } = await import('../../export/cover/pair-words.ts');
  const layout = layOut(part, sheets);
  const mirrored = needsMirrorImage(part) ? layOutMirrored(part, sheets) : undefined;
  const layouts = mirrored ? [layout, mirrored] : [layout];
  return {
    part,
    title: part.name,
    layout,
    ...(mirrored ? { mirrored } : { says: pairWords(part, layout) }),
    ...patternsPages(part, layouts, cover),
  };
}

function defaultOutput({ file, part }: Given): string {
  return file === undefined ? nameAfter(part.name, '.pdf') : `${basename(file, extname(file))}.pdf`;
}

const layoutsOf = ({ layout, mirrored }: Printed): Layout[] => (mirrored ? [layout, mirrored] : [layout]);

const asJson = (printed: Printed, file: string): object => {
  const { part, layout, mirrored, names, json } = printed;
  return {
    file,
    paper: layout.paper.name,
    ...patternJson(layout),
    ...(layout.printer && { printer: layout.printer }),
    ...(part.shape.type === 'half' && { half: { centreLine: part.shape.centre.map(pair) } }),
    sheets: layoutsOf(printed).flatMap((one) => sheetsJson(one, names)),
    checks: checksJson(layout),
    ...(mirrored && { mirrored: { ...patternJson(mirrored), checks: checksJson(mirrored) } }),
    ...json,
  };
};

const patternJson = ({ orientation, turnDeg, plainSheets, lowerBound, code }: Layout): object => ({
  orientation,
  turnDeg,
  plainSheets,
  lowerBound,
  code,
});

/** The way of a mirrored sheet from part to page turns the part over as well. */
const sheetsJson = ({ sheets, mirrored }: Layout, names: readonly string[]): object[] =>
  sheets.map((sheet) => ({
    name: sheet.name,
    page: names.indexOf(sheet.name) + 1,
    ...(mirrored && { mirrored }),
    toPage: pageMatrix(sheet),
  }));

const checksJson = (layout: Layout): object[] =>
  layout.checks.map(({ label, from, to, length }) => ({
    label,
    from: pair(from),
    to: pair(to),
    length,
    tolerance: expectedError(layout, from, to),
  }));

function asText(
  { part, title, layout, mirrored, says = [] }: Printed,
  cover: boolean,
  output: string,
): string {
  const saved = layout.plainSheets > layout.sheets.length ? ` instead of ${layout.plainSheets}` : '';
  const turned = layout.turnDeg === 0 ? '' : `, the part turned ${layout.turnDeg}°`;
  const lies = layout.orientation === 'upright' ? 'upright' : 'lying on the side';
  const sheets = `${sheetCount(layout)}${saved} of ${paperTitle(layout.paper)}, ${lies}${turned}`;
  return [
    `${title}${part.shape.type === 'half' ? ', one half to flip on its centre line' : ''}: ${sheets}${cover ? ', and a cover' : ''}.`,
    ...says,
    ...(mirrored
      ? [
          `Its mirror image, for the other of the pair: ${sheetCount(mirrored)}, named with an m.`,
          `Patterns ${layout.code} and, mirrored, ${mirrored.code} are in ${output}`,
        ]
      : [`Pattern ${layout.code} is in ${output}`]),
    ...(layout.printer ? [`Made good: a printer that prints ${scaleWords(layout.printer)}.`] : []),
    'Print it at 100 % ("actual size", no fitting to the page), on one side of the paper.',
    `Then measure the bars on every sheet before you tape them up${cover ? '; the cover shows how' : ''}.`,
  ].join('\n');
}

const sheetCount = ({ sheets }: Layout): string =>
  sheets.length === 1 ? '1 sheet' : `${sheets.length} sheets`;
