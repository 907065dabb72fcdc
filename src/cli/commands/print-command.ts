import type { Page } from '../../export/drawing/drawing.ts';
import { halfOf } from '../../part/derived/half-pattern.ts';
import type { Part } from '../../part/part.ts';
import { expectedError } from '../../tiling/expected-error.ts';
import type { Layout } from '../../tiling/layout.ts';
import { layOutMirrored } from '../../tiling/mirrored-layout.ts';
import { pageMatrix } from '../../tiling/paper/page-matrix.ts';
import { ORIENTATION_TEXT, paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { printerScaleText } from '../../tiling/paper/printer-scale.ts';
import { type LayOutOptions, layOut } from '../../tiling/tile.ts';
import { Fault } from '../../units/fault.ts';
import { present } from '../../units/lists.ts';
import { showCount, trueMinus } from '../../units/number-format.ts';
import { jobCommand } from '../define-command.ts';
import { streamFileAtomic } from '../files/atomic-write.ts';
import { requireOutput } from '../files/output-file.ts';
import { loadFont } from '../files/read-text.ts';
import { defaultOutput, type JobInput } from '../options/job-input.ts';
import { atOption, group, type OptionValues, option, optional } from '../options/option-spec.ts';
import { requireOneTarget } from '../options/print-target.ts';
import { edgeOption, forceOption, outputOption } from '../options/shared-options.ts';
import { readSheetOptions, SHEET_OPTIONS } from '../options/sheet-options.ts';
import { pick, pointJson } from '../output/print-answer.ts';
import { explainFaults } from '../output/report-errors.ts';
import { type PreparedPrint, progressReporter } from '../print/prepared-print.ts';
import { FORM_OPTIONS, prepareForm } from '../print/print-form.ts';
import { prepareStoryStick, STORY_STICK_OPTIONS } from '../print/print-story-stick.ts';
import { prepareTemplate, TEMPLATE_OPTIONS } from '../print/print-template.ts';

const OPTIONS = [
  outputOption('PDF to write (default: the name of the job with .pdf, in the current folder)'),
  ...SHEET_OPTIONS,
  ...optional({
    '--half': 'print half of a symmetrical part, with a center line to flip the pattern on',
    '--no-cover': 'leave out the cover: the map, the taping steps and the check distances',
    '--separate-cover': 'write the cover to a file of its own, for a shop that prints the pattern alone',
  }),
  forceOption,
  group('Instead of the pattern, one of:'),
  option('--story-stick', 'print a story stick: the stations full size, with the offset to read at each'),
  ...STORY_STICK_OPTIONS,
  option(
    '--template',
    'print a router template, smaller or larger than the part as the bit needs; needs --bit, and --bush or --bearing',
  ),
  ...TEMPLATE_OPTIONS,
  option(
    '--form',
    'print the form to laminate the part on, tightened for springback. A job without "laminate" needs --thickness, --plies or both',
  ),
  ...FORM_OPTIONS,
  edgeOption('edge of the story stick (default: every edge), or edge that the form touches'),
  group('Options:'),
] as const;

export const makeCommand = jobCommand({
  name: 'print',
  summary: 'the part full size, on sheets to tape together',
  description: 'Print the part full size as a PDF, on ordinary sheets to tape together, with a cover.',
  options: OPTIONS,
  notes: [
    'Print at 100% ("actual size", not "fit to page"), on one side of the paper. Measure the scale bars on every sheet ' +
      'before you tape.',
    'Wood and glue vary, so the springback may be larger or smaller than a form allows. Bend a test piece first.',
  ],
  files:
    'Reads JOB and, for --printer, fairlath/printers.yaml in your settings folder ($XDG_CONFIG_HOME or ~/.config). ' +
    'Writes the PDF.',
  safety: ['general-first', 'pattern-measure'],
  examples: [
    'fairlath print samples/hall-bench-leg.yaml',
    'fairlath print samples/garden-arch-rail.yaml --paper a4 --half -o half-rail.pdf',
    'fairlath print samples/hall-bench-leg.yaml --paper roll:24in -o roll.pdf',
    'fairlath print samples/hall-bench-leg.yaml --paper roll:36in --separate-cover',
    'fairlath print samples/hall-bench-leg.yaml --margin "1/4, 1/4, 3/4, 1/4"',
    'fairlath print samples/hall-bench-leg.yaml --scale-across 199.4mm -o corrected.pdf',
    'fairlath print --curve batten --chord 28 --rise 3/4 --nail 12 --no-cover',
    'fairlath print samples/hall-bench-leg.yaml --story-stick --every 2 -o stick.pdf',
    'fairlath print samples/hall-bench-leg.yaml --template --bush 5/8 --bit 1/2',
    'fairlath print samples/garden-arch-rail.yaml --form --edge lower --thickness 75',
  ],
  validate: requireOneTarget,
  run: async (input, options) => {
    const files = outputFiles(input, options);
    for (const file of Object.values(files))
      requireOutput(file, { ending: '.pdf', inputs: [input.file], force: options.force });
    const printed = await preparePrint(input.part, options).catch((error: unknown) => {
      throw explainFaults(error, input.context);
    });
    const { warnings = [] } = printed;
    await writePages(printed, files, options.json ?? false);
    return {
      part: printed.part,
      warnings: [...input.part.warnings, ...warnings],
      json: () => asJson(printed, files),
      text: () => asText(printed, files),
    };
  },
});

interface OutputFiles {
  readonly pattern: string;
  /** Where the cover is a file of its own. */
  readonly cover?: string;
}

/** A print shop gets a file with the pattern alone, named by its paper. */
function outputFiles(input: JobInput, options: OptionValues<typeof OPTIONS>): OutputFiles {
  const { output, separateCover, paper } = options;
  if (!separateCover) return { pattern: output ?? defaultOutput(input, '.pdf') };
  if (!options.cover)
    throw new Fault(
      'command.two-covers',
      'Use --no-cover or --separate-cover, not both.',
      '--separate-cover',
    );
  if (options.storyStick)
    throw new Fault(
      'command.no-cover',
      'a story stick has no cover. Leave out --separate-cover.',
      '--separate-cover',
    );
  if (output !== undefined) return { pattern: output, cover: output.replace(/(\.pdf)?$/i, '-cover.pdf') };
  const on = paper === undefined ? '' : `-${paper.toLowerCase().replaceAll(/[^a-z0-9.]+/g, '-')}`;
  return { pattern: defaultOutput(input, `-pattern${on}.pdf`), cover: defaultOutput(input, '-cover.pdf') };
}

/** The covers are few: they are kept while the sheets are written. */
async function writePages(printed: PreparedPrint, files: OutputFiles, quiet: boolean): Promise<void> {
  const { streamPdf } = await import('../../export/writers/pdf.ts');
  const codes = layoutsOf(printed).map(({ code }) => code);
  const title = `${printed.title}, ${codes.join(' and ')}`;
  const wrote = quiet ? undefined : progressReporter(printed.names.length);
  const sheets = new Set(sheetNames(printed));
  const covers: Page[] = [];
  const write = (file: string, pages: Iterable<Page>): void =>
    streamFileAtomic(file, (sink) => streamPdf(pages, title, { font: loadFont, wrote }, sink));
  write(
    files.pattern,
    files.cover === undefined ? printed.pages : withoutCovers(printed.pages, sheets, covers),
  );
  if (files.cover !== undefined) write(files.cover, covers);
}

function* withoutCovers(pages: Iterable<Page>, sheets: ReadonlySet<string>, covers: Page[]): Generator<Page> {
  for (const page of pages)
    if (sheets.has(page.name)) yield page;
    else covers.push(page);
}

const sheetNames = (printed: PreparedPrint): string[] =>
  layoutsOf(printed).flatMap(({ sheets }) => sheets.map(({ name }) => name));

const hasCover = (printed: PreparedPrint): boolean => printed.names.length > sheetNames(printed).length;

async function preparePrint(part: Part, options: OptionValues<typeof OPTIONS>): Promise<PreparedPrint> {
  const sheets = readSheetOptions(part, options);
  if (options.storyStick) return prepareStoryStick(part, options, sheets);
  if (options.template) return prepareTemplate(part, options, sheets);
  if (options.form) return prepareForm(part, options, sheets);
  return preparePattern(options.half ? atOption('--half', () => halfOf(part)) : part, sheets, options.cover);
}

async function preparePattern(part: Part, sheets: LayOutOptions, cover: boolean): Promise<PreparedPrint> {
  const { pairPages } = await import('../../export/sheets/pattern-pages.ts');
  const { needsMirrorImage, pairWords } = await import('../../export/cover/pair-words.ts');
  const layout = layOut(part, sheets);
  const mirrored = needsMirrorImage(part) ? layOutMirrored(part, sheets) : undefined;
  return {
    part,
    title: part.name,
    layout,
    ...(mirrored ? { mirrored } : { messages: pairWords(part, layout) }),
    ...pairPages(part, present(layout, mirrored), cover),
  };
}

const layoutsOf = ({ layout, mirrored }: PreparedPrint): Layout[] => present(layout, mirrored);

function asJson(printed: PreparedPrint, files: OutputFiles): object {
  const { part, layout, mirrored, json } = printed;
  const names = files.cover === undefined ? printed.names : sheetNames(printed);
  return {
    file: files.pattern,
    cover: files.cover,
    paper: layout.paper.name,
    ...patternJson(layout),
    printer: layout.printer,
    ...(part.shape.type === 'half' && { half: { centreLine: part.shape.centre.map(pointJson) } }),
    sheets: layoutsOf(printed).flatMap((one) => sheetsJson(one, names)),
    checks: checksJson(layout),
    mirrored: mirrored && { ...patternJson(mirrored), checks: checksJson(mirrored) },
    ...json,
  };
}

const patternJson = (layout: Layout): object =>
  pick(layout, 'orientation', 'turnDeg', 'plainSheets', 'lowerBound', 'code');

const sheetsJson = ({ sheets, mirrored }: Layout, names: readonly string[]): object[] =>
  sheets.map((sheet) => ({
    name: sheet.name,
    page: names.indexOf(sheet.name) + 1,
    mirrored,
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

function asText(printed: PreparedPrint, files: OutputFiles): string {
  const cover = hasCover(printed);
  const output = files.pattern;
  const { part, title, layout, mirrored, messages = [] } = printed;
  const paper = `${paperTitle(layout.paper)}, ${ORIENTATION_TEXT[layout.orientation]}`;
  const half = part.shape.type === 'half' ? ', one half to flip on its center line' : '';
  return present(
    `${title}${half}`,
    [`${sheetCount(layout)} of ${paper}${cover ? ', plus a cover' : ''}.`, ...savingText(layout)].join(' '),
    ...messages,
    mirrored && `Mirrored part: ${sheetCount(mirrored)}. Their names end in m.`,
    mirrored
      ? `Wrote ${output}: pattern ${layout.code} and mirrored pattern ${mirrored.code}.`
      : `Wrote ${output}: pattern ${layout.code}.`,
    files.cover !== undefined && `Wrote ${files.cover}: the cover. Print it on any printer.`,
    layout.printer && `Corrected for a printer that prints ${printerScaleText(layout.printer)}.`,
    'Print at 100% ("actual size", not "fit to page"), on one side of the paper.',
    `Before you tape, measure the scale bars on every sheet.${cover ? ' The cover shows how.' : ''}`,
  ).join('\n');
}

/** In the middle of portrait paper, the part would take the plain number of sheets. */
function savingText({ turnDeg, plainSheets, sheets }: Layout): string[] {
  const rotated = `The part is rotated ${trueMinus(`${turnDeg}`)}°`;
  const saved = plainSheets - sheets.length;
  if (saved <= 0) return turnDeg === 0 ? [] : [`${rotated}.`];
  const fewer = showCount(saved, 'sheet');
  return [
    turnDeg === 0
      ? `fairlath moved the part on the paper to save ${fewer}.`
      : `${rotated}, which saves ${fewer}.`,
  ];
}

const sheetCount = ({ sheets }: Layout): string => showCount(sheets.length, 'sheet');
