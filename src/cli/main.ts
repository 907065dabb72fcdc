import { Command, CommanderError } from 'commander';
import { Fault } from '../units/fault.ts';
import { EXIT_CODES, type Outcome, outcomeOf } from './exit-codes.ts';
import { addHelpSections, applyHelpStyle, LENGTH_SYNTAX } from './help.ts';
import { reportError } from './output/report-errors.ts';

const makeProgram = (): Command =>
  addHelpSections(
    applyHelpStyle(new Command('fairlath'))
      .description(
        'The line a bent batten takes, on your part, at full size. Write the part down in a job file, look at it with ' +
          'show, print it over ordinary sheets with print.',
      )
      .usage('COMMAND [JOB] [options]')
      .version('0.1.0', '--version', 'show the version')
      .helpCommand(false)
      .showHelpAfterError('(fairlath --help shows the commands, fairlath COMMAND --help its options)')
      .exitOverride(),
    {
      notes: [
        'fairlath COMMAND --help explains a command. Most take a JOB, or in its place one curve over its chord: --curve ' +
          'batten --chord 28 --rise 3/4.',
        LENGTH_SYNTAX,
      ],
      files:
        'Jobs, readings and what is written go by the names you give. A file that fairlath wrote before is replaced, ' +
        'any other only with --force, a job that is read never. What printers measured is kept in ' +
        'fairlath/printers.yaml in your settings folder ($XDG_CONFIG_HOME or ~/.config).',
      safety: ['general-first', 'general-strength'],
      examples: [
        'fairlath new leg.yaml',
        'fairlath show samples/hall-bench-leg.yaml',
        'fairlath print samples/hall-bench-leg.yaml -o leg.pdf',
        'fairlath show --curve batten --chord 28 --rise 3/4 --nail 12',
      ],
    },
  );

function registerCommand(parent: Command, path: string, command: Command): void {
  const name = `${path} ${command.name()}`;
  applyHelpStyle(command).exitOverride().showHelpAfterError(`(${name} --help shows its options)`);
  if (!parent.commands.includes(command)) parent.addCommand(command);
  for (const each of command.commands) registerCommand(command, name, each);
}

/** A job is no command, but a maker may begin with it. */
function refuseJobAlone(word = ''): void {
  if (/\.ya?ml$/i.test(word)) {
    const wording = `"${word}" is a job. Put a command before it, such as: fairlath show ${word}`;
    throw new Fault('command.missing', wording);
  }
}

/** The shell parts a length at its space where it has no quotes. */
function refuseUnquoted([before = '', ...words]: readonly string[]): void {
  const [word] = words;
  if (word === undefined) return;
  if (/^\d+\/\d+\D{0,2}$/.test(word) && /^[^-].*\d$|^-*\d+$/.test(before))
    throw new Fault(
      'command.unquoted',
      `"${before}" and "${word}" are two words to the shell. Put quotes around them: "${before} ${word}".`,
    );
  refuseUnquoted(words);
}

/** Runs the command that process.argv names. */
export async function run(commands: readonly (() => Command | Promise<Command>)[]): Promise<Outcome> {
  let outcome: Outcome = { exitCode: EXIT_CODES.done, faults: [] };
  try {
    const program = makeProgram();
    for (const make of commands) registerCommand(program, 'fairlath', await make());
    refuseJobAlone(process.argv[2]);
    refuseUnquoted(process.argv.slice(2));
    await program.parseAsync();
  } catch (error) {
    // The parser has printed its own message.
    if (!(error instanceof CommanderError)) reportError(error);
    outcome = outcomeOf(error);
  }
  process.exitCode = outcome.exitCode;
  return outcome;
}
