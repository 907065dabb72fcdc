import { type Command, Help } from 'commander';
import { type SafetyId, safetyNote, safetySections } from '../shop/words/safety.ts';
import { present } from '../units/lists.ts';
import { MEASURE } from '../units/typeset.ts';
import { EXIT_CODE_HELP } from './exit-codes.ts';
import { truncate } from './output/report-errors.ts';
import { writeText } from './output/stdout.ts';

export interface HelpSections {
  readonly notes?: readonly string[];
  readonly files?: string;
  readonly safety?: readonly SafetyId[];
  /** Command lines as typed; a test runs each. */
  readonly examples: readonly string[];
}

export const LENGTH_SYNTAX =
  'Type lengths as you say them: 28 3/4, 28-3/4", 2\' 4 1/2" or 730 mm. On the command line, put quotes around a length ' +
  'that has a space or an inch mark.';

/** Longer lines are hard to read. */
const MAX_HELP_WIDTH = 100;

const helpWidth = ({ columns }: NodeJS.WriteStream): number => Math.min(columns || 80, MAX_HELP_WIDTH);

/** The style of all help texts. The descriptions state the defaults, so the parser does not add them. */
export const applyHelpStyle = (command: Command): Command =>
  command
    .helpOption('-h, --help', 'show this help')
    .configureOutput({
      writeOut: writeText,
      // console.error ignores a closed standard error, so the exit code stays that of a mistake.
      writeErr: (text) => console.error(truncate(text.replace(/\n$/, ''))),
      getOutHelpWidth: () => helpWidth(process.stdout),
      getErrHelpWidth: () => helpWidth(process.stderr),
    })
    .configureHelp({
      optionDescription: ({ description }) => description,
      subcommandTerm: (sub) =>
        [sub.name(), ...sub.registeredArguments.map((argument) => argument.name())].join(' '),
      boxWrap: wrapText,
    });

/** Adds the sections below the options. */
export const addHelpSections = (command: Command, sections: HelpSections): Command =>
  command.addHelpText('after', () => {
    const { notes = [], files, safety = [], examples } = sections;
    const care = safetySections(safety.map((id) => safetyNote(id)));
    const width = helpWidth(process.stdout);
    const titled = (title: string, text: string): string =>
      `${title}:\n${wrapText(text, width - INDENT.length).replace(/^/gm, INDENT)}`;
    const blocks = present(
      ...notes.map((note) => wrapText(note, width)),
      files !== undefined && titled('Files', files),
      ...care.map(({ title, messages }) => titled(title, messages.join('\n'))),
      ['Examples:', ...examples.map((line) => formatExample(line, width))].join('\n'),
      examples.some((line) => line.includes(' samples/')) && wrapText(SAMPLES, width),
      titled('Exit codes', EXIT_CODE_HELP),
    );
    return `\n${blocks.join('\n\n')}\n`;
  });

const SAMPLES = 'To get the sample files, run "fairlath new --samples". It writes the folder samples.';

const INDENT = '  ';

/** A command line that is wider than the window continues after a backslash, never within an option. */
function formatExample(line: string, width: number): string {
  const whole = `${INDENT}$ ${line}`;
  if (whole.length <= width) return whole;
  const further = INDENT.repeat(3);
  const room = width - further.length - ' \\'.length;
  const lines = wrapText(line.replaceAll(/ (?!-)/g, PROTECTED_SPACE), room).split('\n');
  return `${INDENT}$ ${lines.join(` \\\n${further}`)}`;
}

/** Stands for a space where no line may break: one column wide, and no white space to the line breaker. */
const PROTECTED_SPACE = '\uE000';

/** A text in quotes, and a number with its unit or fraction. A mark after a digit is an inch mark, not a quote. */
const UNBREAKABLE = new RegExp(`(?<!\\d)"[^"]*"|${MEASURE.source}`, 'g');

function wrapText(text: string, width: number): string {
  const unbroken = text.replace(UNBREAKABLE, (whole) => whole.replaceAll(' ', PROTECTED_SPACE));
  return new Help().boxWrap(unbroken, width).replaceAll(PROTECTED_SPACE, ' ');
}
