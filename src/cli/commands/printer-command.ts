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
  'The measurements are kept in fairlath/printers.yaml in your settings folder ($XDG_CONFIG_HOME or ~/.config). ' +
  'You can edit this file.';

const NOMINAL_NOTE = 'A number without a unit is in mm.';

const nominalOption = optionWithDefault(
  '--nominal <length>',
  `drawn length of the lines (default: ${NOMINAL_TEXT})`,
  NOMINAL_TEXT,
);

/** As for a job in inches, which is what a job is by default. */
const SHEET_PAPER = DEFAULT_PAPER.in;

const sheetCommand = plainCommand({
  name: 'sheet',
  summary: 'a page with two long lines to measure',
  description:
    'Write a page with two long lines, one across the paper and one down it. Print the page and measure both.',
  usage: '[options]',
  options: [
    optionWithDefault(
      '-o, --output <FILE>',
      'PDF to write (default: printer-sheet.pdf in the current folder)',
      'printer-sheet.pdf',
    ),
    optionWithDefault('--paper <size>', paperHelp(SHEET_PAPER), SHEET_PAPER),
    nominalOption,
    forceOption,
    option('--json', 'answer with one JSON object for programs: mm'),
  ],
  notes: [
    'Across means along the short side of the paper. Down means along the long side, whichever way the page is rotated.',
    NOMINAL_NOTE,
  ],
  files: 'Writes the PDF.',
  examples: [
    'fairlath printer sheet',
    'fairlath printer sheet --paper a4 -o a4-sheet.pdf',
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
        `Wrote ${output}: a line of ${length.replace(/ in$/, '"')} across the paper and one down it.\n` +
          'Print it at 100% and measure both lines. Then save the measurements:\n' +
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
  summary: 'save what you measured on the sheet',
  description: 'Save the measurements of the printer sheet under a name that you choose.',
  usage: 'NAME --across MEASURED --down MEASURED [options]',
  argument: ['<NAME>', 'name that you choose for the printer, such as shop-laser'],
  options: [
    requiredOption(
      '--across <measured>',
      'measured length of the line along the short side: 199.4mm, "7 27/32in" or 99.7%; required',
    ),
    requiredOption('--down <measured>', 'measured length of the line along the long side; required'),
    nominalOption,
    option('--json', 'answer with one JSON object for programs: printed length divided by true length'),
  ],
  notes: [`If the name exists, the new measurements replace the old ones. ${NOMINAL_NOTE}`],
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
        `${name} prints ${printerScaleText(printer)}. Saved in ${printersFilePath()}\n` +
          `From now on, print with --printer ${shellArgument(name)}. Every sheet is then corrected.`,
      );
  },
});

const listCommand = plainCommand({
  name: 'list',
  summary: 'the printers measured so far',
  description: 'List the printers measured so far, with the scale of each.',
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
  summary: 'measure a printer, to correct its scale',
  description: 'Measure your printer once. Then print patterns with --printer NAME to correct every sheet.',
  usage: 'sheet | set NAME | list',
  options: [],
  subcommands: [sheetCommand, setCommand, listCommand],
  notes: [
    'Print the sheet at 100% and measure its two lines. Save the measurements with "printer set". Then print your ' +
      'patterns with --printer NAME.',
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
    ? 'No printer has been measured yet. Start with "fairlath printer sheet".'
    : textTable([
        ['printer', 'across', 'down'],
        ...printers.map(({ name, across, down }) => [name, scalePercent(across), scalePercent(down)]),
      ]);

const writeJson = (body: object): void => writeLine(JSON.stringify({ ...body, warnings: [] }, null, 2));
