import { Command, CommanderError } from 'commander';
import { endsWith, inHouseStyle, LENGTHS } from './help.ts';
import { report } from './report.ts';

/** Each loads on its own: the build makes one script of each, so that no command waits for the others. */
const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  new: async () => (await import('./new.ts')).newCommand(),
  show: async () => (await import('./show.ts')).showCommand(),
  print: async () => (await import('./print.ts')).printCommand(),
  draw: async () => (await import('./draw.ts')).drawCommand(),
  offsets: async () => (await import('./offsets.ts')).offsetsCommand(),
  batten: async () => (await import('./batten.ts')).battenCommand(),
  stock: async () => (await import('./stock.ts')).stockCommand(),
  saw: async () => (await import('./saw.ts')).sawCommand(),
  card: async () => (await import('./card.ts')).cardCommand(),
  check: async () => (await import('./check.ts')).checkCommand(),
  'take-off': async () => (await import('./take-off.ts')).takeOffCommand(),
  page: async () => (await import('./page.ts')).pageCommand(),
  printer: async () => (await import('./printer.ts')).printerCommand(),
};

/** The command that is asked for; all of them where help, or a word that is none, calls for the list. */
function wanted(word = ''): (() => Promise<Command>)[] {
  const one = Object.hasOwn(COMMANDS, word) ? COMMANDS[word] : undefined;
  return one ? [one] : Object.values(COMMANDS);
}

/** The user's mistake: command line, job file, an input that cannot be read, an output in the way. */
const USER_MISTAKE = 2;

const program = endsWith(
  inHouseStyle(new Command('fairlath'))
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
      LENGTHS,
    ],
    files:
      'Jobs, readings and what is written go by the names you give. A file that fairlath wrote before is replaced, ' +
      'any other only with --force, a job that is read never. What printers measured is kept in ' +
      'fairlath/printers.yaml in your settings folder ($XDG_CONFIG_HOME or ~/.config).',
    care:
      'fairlath draws lines. It does not judge whether a part is strong enough to sit on, lean on or stand under; the ' +
      'manuals of your machines, local codes and licensed practice come first.',
    examples: [
      'fairlath new leg.yaml',
      'fairlath show samples/hall-bench-leg.yaml',
      'fairlath print samples/hall-bench-leg.yaml -o leg.pdf',
      'fairlath show --curve batten --chord 28 --rise 3/4 --nail 12',
    ],
  },
);

function addTo(parent: Command, path: string, command: Command): void {
  const name = `${path} ${command.name()}`;
  inHouseStyle(command).exitOverride().showHelpAfterError(`(${name} --help shows its options)`);
  if (!parent.commands.includes(command)) parent.addCommand(command);
  for (const each of command.commands) addTo(command, name, each);
}

async function main(): Promise<void> {
  try {
    for (const load of wanted(process.argv[2])) addTo(program, 'fairlath', await load());
    await program.parseAsync();
  } catch (error) {
    if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? 0 : USER_MISTAKE;
    else process.exitCode = report(error);
  }
}

/** Kept when the command has done its work and set the exit code. */
export const done = main();
