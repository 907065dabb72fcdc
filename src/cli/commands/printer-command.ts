import { type KnownPrinter, validatePrinterName } from '../../tiling/paper/known-printers.ts';
import { DEFAULT_PAPER, paperTitle, parsePaper } from '../../tiling/paper/paper-sizes.ts';
import {
  NOMINAL_LINE_MM,
  parseNominal,
  parseScale,
  printerScaleText,
  scalePercent,
  shellArgument,
} from '../../tiling/paper/printer-scale.ts';
import { plainCommand } from '../define-command.ts';
import { writeFileAtomic } from '../files/atomic-write.ts';
import { requireOutput } from '../files/output-file.ts';
import { knownPrinters, printersFilePath, savePrinter } from '../files/printers-file.ts';
import { loadFont } from '../files/read-text.ts';
import { atOption, option, optionWithDefault, requiredOption } from '../options/option-spec.ts';
import { forceOption, paperHelp } from '../options/shared-options.ts';
import { textTable } from '../output/print-answer.ts';
import { writeLine } from '../output/stdout.ts';

const NOMINAL_TEXT = `${NOMINAL_LINE_MM} mm`;

const PRINTERS_FILE_HELP =
  'The measures are kept in fairlath/printers.yaml in your settings folder ($XDG_CONFIG_HOME or ~/.config), a plain ' +
  'file that you may change by hand.';

const NOMINAL_NOTE = 'A bare number is in mm.';

const nominalOption = (tense: 'are' | 'were') =>
  optionWithDefault(
    '--nominal <length>',
    `how long the lines ${tense} drawn (default: ${NOMINAL_TEXT})`,
    NOMINAL_TEXT,
  );

const sheetCommand = plainCommand({
  name: 'sheet',
  summary: 'a page with two long lines to measure',
  description: 'Write a page with two long lines to print and measure, one across the paper and one down it.',
  usage: '[options]',
  options: [
    optionWithDefault(
      '-o, --output <FILE>',
      'the PDF to write (default: printer-sheet.pdf in the current folder)',
      'printer-sheet.pdf',
    ),
    optionWithDefault('--paper <size>', paperHelp(DEFAULT_PAPER.mm), DEFAULT_PAPER.mm),
    nominalOption('are'),
    forceOption,
    option('--json', 'answer with one JSON object for programs: mm'),
  ],
  notes: [
    'Across is along the short side of the paper, down along its long side, whichever way a page lies.',
    NOMINAL_NOTE,
  ],
  files: 'Writes the PDF.',
  examples: [
    'fairlath printer sheet --paper letter',
    'fairlath printer sheet --paper letter --nominal 7.5in -o inches.pdf',
  ],
  run: async ({ output, force, json, ...typed }) => {
    const paper = atOption('--paper', () => parsePaper(typed.paper));
    const nominal = atOption('--nominal', () => parseNominal(typed.nominal));
    requireOutput(output, { ending: '.pdf', inputs: [], force });
    const { printerSheet } = await import('../../export/cover/printer-sheet.ts');
    const { writePdf } = await import('../../export/writers/pdf.ts');
    const length = lengthWithUnit(typed.nominal);
    const pages = printerSheet(paper, nominal, length);
    writeFileAtomic(output, await writePdf(pages, `Printer sheet, ${paperTitle(paper)}`, loadFont));
    const otherNominal = nominal === NOMINAL_LINE_MM ? '' : ` --nominal ${shellArgument(length)}`;
    if (json) writeJson({ command: 'printer sheet', units: 'mm', file: output, paper: paper.name, nominal });
    else
      writeLine(
        `${output} has a line of ${length} across and one down. ` +
          'Print it at 100%, measure both, then type what they measure:\n' +
          `  fairlath printer set NAME --across MEASURED --down MEASURED${otherNominal}`,
      );
  },
});

const lengthWithUnit = (typed: string): string => {
  const plain = typed.trim().replace(/["″”]$/, ' in');
  return /[\d.]$/.test(plain) ? `${plain} mm` : plain;
};

const setCommand = plainCommand({
  name: 'set',
  summary: 'keep what the lines of the sheet measured',
  description:
    'Keep what the two lines of the printer sheet measured, under a name of yours for the printer.',
  usage: 'NAME --across MEASURED --down MEASURED [options]',
  argument: ['<NAME>', 'your own name for the printer, such as shop-laser'],
  options: [
    requiredOption(
      '--across <measured>',
      'the line along the short side as it measures: 199.4mm, "7 27/32in" or 99.7%; required',
    ),
    requiredOption('--down <measured>', 'the line along the long side likewise; required'),
    nominalOption('were'),
    option('--json', 'answer with one JSON object for programs: mm printed a mm'),
  ],
  notes: [`Setting a name again replaces its measures. ${NOMINAL_NOTE}`],
  files: PRINTERS_FILE_HELP,
  examples: [
    'fairlath printer set shop-laser --across 199.4mm --down 200.6mm',
    'fairlath printer set "office inkjet" --across 7.53in --down 7.49in --nominal 7.5in',
  ],
  run: (typed, name) => {
    atOption('NAME', () => validatePrinterName(name));
    const nominal = atOption('--nominal', () => parseNominal(typed.nominal));
    const printer = {
      name,
      across: atOption('--across', () => parseScale(typed.across, nominal)),
      down: atOption('--down', () => parseScale(typed.down, nominal)),
    };
    savePrinter(printer);
    if (typed.json) writeJson({ command: 'printer set', file: printersFilePath(), printer });
    else
      writeLine(
        `${name} prints ${printerScaleText(printer)}. Kept in ${printersFilePath()}\n` +
          `Print with --printer ${shellArgument(name)} from now on: it is made good on every sheet.`,
      );
  },
});

const listCommand = plainCommand({
  name: 'list',
  summary: 'the printers measured so far',
  description: 'List the printers measured so far, with how much each is off.',
  usage: '[options]',
  options: [option('--json', 'answer with one JSON object for programs')],
  files: PRINTERS_FILE_HELP,
  examples: ['fairlath printer list'],
  run: ({ json }) => {
    const printers = knownPrinters();
    if (json) writeJson({ command: 'printer list', file: printersFilePath(), printers });
    else writeLine(printerTable(printers));
  },
});

export const makeCommand = plainCommand({
  name: 'printer',
  summary: 'measure how true a printer prints',
  description:
    'Measure how true a printer prints, once: patterns printed with --printer NAME then make it good on every sheet.',
  usage: 'sheet | set NAME | list',
  options: [],
  subcommands: [sheetCommand, setCommand, listCommand],
  notes: [
    'Print the sheet at 100%, measure its two lines, type what you measured, then print your patterns with ' +
      '--printer NAME.',
  ],
  files: PRINTERS_FILE_HELP,
  examples: [
    'fairlath printer sheet -o printer.pdf',
    'fairlath printer set shop-laser --across 199.4mm --down 200.6mm',
    'fairlath printer list',
    'fairlath print samples/hall-bench-leg.yaml --printer shop-laser',
  ],
});

const printerTable = (printers: readonly KnownPrinter[]): string =>
  printers.length === 0
    ? 'No printer has been measured yet. Begin with "fairlath printer sheet".'
    : textTable([
        ['printer', 'across', 'down'],
        ...printers.map(({ name, across, down }) => [name, scalePercent(across), scalePercent(down)]),
      ]);

const writeJson = (body: object): void => writeLine(JSON.stringify({ ...body, warnings: [] }, null, 2));
