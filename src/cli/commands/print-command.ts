import { basename, extname } from 'node:path';
import { Command } from 'commander';
import { fileNameFor } from '../../export/drawing/file-name.ts';
import { halfOf } from '../../part/derived/half-pattern.ts';
import type { Part } from '../../part/part.ts';
import { expectedError } from '../../tiling/expected-error.ts';
import type { Layout } from '../../tiling/layout.ts';
import { layOutMirrored } from '../../tiling/mirrored-layout.ts';
import { pageMatrix } from '../../tiling/paper/page-matrix.ts';
import { paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { printerScaleText } from '../../tiling/paper/printer-scale.ts';
import { type LayOutOptions, layOut } from '../../tiling/tile.ts';
import { showCount } from '../../units/number-format.ts';
import { requireWritable, streamFileAtomic } from '../files/atomic-files.ts';
import { requireExtension } from '../files/file-extension.ts';
import { loadFont } from '../files/load-font.ts';
import { isOwnPdf } from '../files/own-files.ts';
import { addJobArgument, type JobInput, printWarnings, readJobInput } from '../options/job-input.ts';
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
import {
  type PrintTarget,
  readSheetOptions,
  requireOneTarget,
  type SheetLayoutOptions,
} from '../options/sheet-options.ts';
import { pointJson, printJson } from '../output/json-output.ts';
import { progressReporter } from '../output/print-progress.ts';
import { optionContext, withFaultContextAsync } from '../output/report-errors.ts';
import { writeLine } from '../output/stdout.ts';
import type { PreparedPrint } from '../print/prepared-print.ts';
import { type FormOptions, prepareForm } from '../print/print-form.ts';
import { type GaugeOptions, prepareGauge } from '../print/print-gauge.ts';
import { prepareTemplate, type TemplateOptions } from '../print/print-template.ts';

interface PrintOptions
  extends SheetLayoutOptions,
    GaugeOptions,
    FormOptions,
    Omit<TemplateOptions, 'half'>,
    PrintTarget {
  readonly output?: string;
  readonly cover: boolean;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** How the part is laid over its sheets. */
const addSheetOptions = (command: Command): Command =>
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
const addOtherPrintOptions = (command: Command): Command =>
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
  addJobArgument(addOtherPrintOptions(addSheetOptions(new Command('print'))), {
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
    requireOneTarget(options);
    const given = readJobInput(file, { ...options });
    const output = options.output ?? defaultPdfName(given);
    requireWritable(output, given.file, isOwnPdf, options.force ?? false);
    requireExtension(output, '.pdf');
    const printed = await withFaultContextAsync(optionContext(given.context), () =>
      preparePrint(given.part, options),
    );
    const { streamPdf } = await import('../../export/writers/pdf.ts');
    const { title, pages, names } = printed;
    const codes = layoutsOf(printed).map(({ code }) => code);
    const wrote = options.json ? undefined : progressReporter(names.length);
    streamFileAtomic(output, (write) =>
      streamPdf(pages, `${title}, ${codes.join(' and ')}`, { font: loadFont(), wrote }, write),
    );
    const part = { ...printed.part, warnings: [...given.part.warnings, ...(printed.warnings ?? [])] };
    printWarnings(part);
    if (options.json) printJson('print', part, asJson(printed, output));
    else writeLine(asText(printed, options.cover, output));
  });

/** What the options make of the part. */
async function preparePrint(part: Part, options: PrintOptions): Promise<PreparedPrint> {
  const sheets = readSheetOptions(part, options);
  if (options.gauge) return prepareGauge(part, options, sheets, options.cover);
  if (options.template) return prepareTemplate(part, options, sheets, options.cover);
  if (options.form) return prepareForm(part, options, sheets, options.cover);
  return preparePattern(options.half ? atOption('--half', () => halfOf(part)) : part, sheets, options.cover);
}

async function preparePattern(part: Part, sheets: LayOutOptions, cover: boolean): Promise<PreparedPrint> {
  const { pairPages } = await import('../../export/sheets/pattern-pages.ts');
  const { needsMirrorImage, pairWords } = await import('../../export/cover/pair-words.ts');
  const layout = layOut(part, sheets);
  const mirrored = needsMirrorImage(part) ? layOutMirrored(part, sheets) : undefined;
  const layouts = mirrored ? [layout, mirrored] : [layout];
  return {
    part,
    title: part.name,
    layout,
    ...(mirrored ? { mirrored } : { messages: pairWords(part, layout) }),
    ...pairPages(part, layouts, cover),
  };
}

function defaultPdfName({ file, part }: JobInput): string {
  return file === undefined ? fileNameFor(part.name, '.pdf') : `${basename(file, extname(file))}.pdf`;
}

const layoutsOf = ({ layout, mirrored }: PreparedPrint): Layout[] =>
  mirrored ? [layout, mirrored] : [layout];

const asJson = (printed: PreparedPrint, file: string): object => {
  const { part, layout, mirrored, names, json } = printed;
  return {
    file,
    paper: layout.paper.name,
    ...patternJson(layout),
    ...(layout.printer && { printer: layout.printer }),
    ...(part.shape.type === 'half' && { half: { centreLine: part.shape.centre.map(pointJson) } }),
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
    from: pointJson(from),
    to: pointJson(to),
    length,
    tolerance: expectedError(layout, from, to),
  }));

function asText(
  { part, title, layout, mirrored, messages = [] }: PreparedPrint,
  cover: boolean,
  output: string,
): string {
  const saved = layout.plainSheets > layout.sheets.length ? ` instead of ${layout.plainSheets}` : '';
  const turned = layout.turnDeg === 0 ? '' : `, the part turned ${layout.turnDeg}°`;
  const lies = layout.orientation === 'upright' ? 'upright' : 'lying on the side';
  const sheets = `${sheetCount(layout)}${saved} of ${paperTitle(layout.paper)}, ${lies}${turned}`;
  return [
    `${title}${part.shape.type === 'half' ? ', one half to flip on its centre line' : ''}: ${sheets}${cover ? ', and a cover' : ''}.`,
    ...messages,
    ...(mirrored
      ? [
          `Its mirror image, for the other of the pair: ${sheetCount(mirrored)}, named with an m.`,
          `Patterns ${layout.code} and, mirrored, ${mirrored.code} are in ${output}`,
        ]
      : [`Pattern ${layout.code} is in ${output}`]),
    ...(layout.printer ? [`Made good: a printer that prints ${printerScaleText(layout.printer)}.`] : []),
    'Print it at 100 % ("actual size", no fitting to the page), on one side of the paper.',
    `Then measure the bars on every sheet before you tape them up${cover ? '; the cover shows how' : ''}.`,
  ].join('\n');
}

const sheetCount = ({ sheets }: Layout): string => showCount(sheets.length, 'sheet');
