import { type Command, Help } from 'commander';
import { MEASURE } from '../units/typeset.ts';
import { sayAsIs } from './output/stdout.ts';
import { brief } from './output/truncate.ts';

/** What stands below a command's options: how it works, what it reads and writes, cautions, examples. */
export interface Ending {
  /** Paragraphs. */
  readonly notes?: readonly string[];
  readonly files?: string;
  /** Where the work can hurt someone. */
  readonly care?: string;
  /** Command lines as typed; a test runs each. */
  readonly examples: readonly string[];
}

/** How a length is typed, said in every help that asks for one. */
export const LENGTHS =
  'Lengths are typed as you say them: 28 3/4, 28-3/4", 2\' 4 1/2" or 730 mm. On the command line, one with a space or ' +
  'an inch mark in it stands between quotes.';

const EXIT_CODES = '0 done, 2 a mistake in what was given, 1 a failure of the program';

/** Wider than this the eye loses the line, however wide the window is. */
const WIDEST = 100;

const widthFor = (stream: NodeJS.WriteStream): number => Math.min(stream.columns || 80, WIDEST);

/** The look that all help texts share. Defaults stand in the descriptions, in a maker's words. */
export const inHouseStyle = (command: Command): Command =>
  command
    .helpOption('-h, --help', 'show this help')
    .configureOutput({
      writeOut: sayAsIs,
      // Said or not, the mistake is the user's: the console bears that standard error takes no more.
      writeErr: (text) => console.error(brief(text.replace(/\n$/, ''))),
      getOutHelpWidth: () => widthFor(process.stdout),
      getErrHelpWidth: () => widthFor(process.stderr),
    })
    .configureHelp({
      optionDescription: ({ description }) => description,
      subcommandTerm: (sub) =>
        [sub.name(), ...sub.registeredArguments.map((argument) => argument.name())].join(' '),
      boxWrap: wrap,
    });

/** Adds what stands below a command's options. */
export const endsWith = (command: Command, { notes = [], files, care, examples }: Ending): Command =>
  command.addHelpText('after', () => {
    const width = widthFor(process.stdout);
    const under = (title: string, text: string): string =>
      `${title}:\n${wrap(text, width - INDENT.length).replace(/^/gm, INDENT)}`;
    const blocks = [
      ...notes.map((note) => wrap(note, width)),
      ...(files === undefined ? [] : [under('Files', files)]),
      ...(care === undefined ? [] : [under('Take care', care)]),
      ['Examples:', ...examples.map((line) => typed(line, width))].join('\n'),
      ...(examples.some((line) => line.includes(' samples/')) ? [wrap(SAMPLES, width)] : []),
      under('Exit codes', EXIT_CODES),
    ];
    return `\n${blocks.join('\n\n')}\n`;
  });

const SAMPLES = 'The sample files come from fairlath new --samples, which writes the folder samples.';

const INDENT = '  ';

/** A command line as typed: one longer than the window goes on after a backslash, never within an option. */
function typed(line: string, width: number): string {
  const whole = `${INDENT}$ ${line}`;
  if (whole.length <= width) return whole;
  const further = INDENT.repeat(3);
  const room = width - further.length - ' \\'.length;
  const lines = wrap(line.replaceAll(/ (?!-)/g, HELD), room).split('\n');
  return `${INDENT}$ ${lines.join(` \\\n${further}`)}`;
}

/** Stands for a space that no line may end at: of one column, and no white space to whoever breaks lines. */
const HELD = '\uE000';

/** A number with its unit or fraction, and what stands between quotes, are not torn apart. */
const UNBREAKABLE = new RegExp(`"[^"]*"|${MEASURE.source}`, 'g');

const wrap = (text: string, width: number): string =>
  new Help()
    .boxWrap(
      text.replace(UNBREAKABLE, (whole) => whole.replaceAll(' ', HELD)),
      width,
    )
    .replaceAll(HELD, ' ');
