import { Command, CommanderError } from 'commander';
import { Fault } from '../units/fault.ts';
import { EXIT_CODES, type Outcome, outcomeOf } from './exit-codes.ts';
import { addHelpSections, applyHelpStyle, LENGTH_SYNTAX } from './help.ts';
import { reportError } from './output/report-errors.ts';

const makeProgram = (): Command =>
  addHelpSections(
    applyHelpStyle(new Command('fairlath'))
      .description(
        'New to fairlath? Read docs/quick-start.md first, in the folder of fairlath.\n\n' +
          'Draw the curve of a bent batten on your part, and print it full size. Write the part in a job file, look at ' +
          'it with "show", then print it on ordinary sheets with "print".',
      )
      .usage('COMMAND [JOB] [options]')
      .version('0.1.0', '--version', 'show the version')
      .helpCommand(false)
      .showHelpAfterError('(fairlath --help lists the commands, fairlath COMMAND --help lists its options)')
      .exitOverride(),
    {
      notes: [
        'Run "fairlath COMMAND --help" for details. Most commands take a JOB file. For a single curve, use options ' +
          'instead: --curve batten --chord 28 --rise 3/4.',
        LENGTH_SYNTAX,
      ],
      files:
        'You name every file. fairlath replaces a PDF or a drawing that it wrote itself. It replaces any other file only ' +
        'with --force, and never the job that it reads. Printer measurements are kept in fairlath/printers.yaml in your ' +
        'settings folder ($XDG_CONFIG_HOME or ~/.config).',
      safety: ['general-first', 'general-strength'],
      examples: [
        'fairlath new my-part.yaml',
        'fairlath show samples/hall-bench-leg.yaml',
        'fairlath print samples/hall-bench-leg.yaml -o leg.pdf',
        'fairlath show --curve batten --chord 28 --rise 3/4 --nail 12',
      ],
    },
  );

function registerCommand(parent: Command, path: string, command: Command): void {
  const name = `${path} ${command.name()}`;
  applyHelpStyle(command).exitOverride().showHelpAfterError(`(${name} --help lists its options)`);
  if (!parent.commands.includes(command)) parent.addCommand(command);
  for (const each of command.commands) registerCommand(command, name, each);
}

/** A maker may type the job where the command belongs. */
function refuseJobAlone(word = ''): void {
  if (/\.ya?ml$/i.test(word)) {
    const wording = `"${word}" is a job, not a command. Put a command before it, such as: fairlath show ${word}`;
    throw new Fault('command.missing', wording);
  }
}

/** Without quotes, the shell splits a length at its space. */
function refuseUnquoted([before = '', ...words]: readonly string[]): void {
  const [word] = words;
  if (word === undefined) return;
  if (/^\d+\/\d+\D{0,2}$/.test(word) && /^[^-].*\d$|^-*\d+$/.test(before))
    throw new Fault(
      'command.unquoted',
      `the shell reads "${before}" and "${word}" as two words. Put quotes around them: "${before} ${word}".`,
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
