import { Command, CommanderError } from 'commander';
import { battenCommand } from './batten.ts';
import { cardCommand } from './card.ts';
import { checkCommand } from './check.ts';
import { drawCommand } from './draw.ts';
import { newCommand } from './new.ts';
import { offsetsCommand } from './offsets.ts';
import { pageCommand } from './page.ts';
import { printCommand } from './print.ts';
import { printerCommand } from './printer.ts';
import { report } from './report.ts';
import { sawCommand } from './saw.ts';
import { showCommand } from './show.ts';
import { stockCommand } from './stock.ts';
import { takeOffCommand } from './take-off.ts';

/** The user's mistake: command line, job file, an input that cannot be read, an output in the way. */
const USER_MISTAKE = 2;

const program = new Command('fairlath')
  .description(
    'The line a bent batten takes, on your part, at full size.\n' +
      'Write the part down in a job file, look at it with show, print it over ordinary sheets with print.',
  )
  .version('0.1.0', '--version')
  .helpCommand(false)
  .showHelpAfterError('(fairlath --help shows the commands, fairlath COMMAND --help its options)')
  .exitOverride()
  .addHelpText(
    'after',
    `
Examples:
  $ fairlath new leg.yaml
  $ fairlath show samples/hall-bench-leg.yaml
  $ fairlath print samples/hall-bench-leg.yaml -o leg.pdf
  $ fairlath show --curve batten --chord 28 --rise 3/4 --nail 12
`,
  );

function addTo(parent: Command, path: string, command: Command): void {
  const name = `${path} ${command.name()}`;
  command.exitOverride().showHelpAfterError(`(${name} --help shows its options)`);
  if (!parent.commands.includes(command)) parent.addCommand(command);
  for (const each of command.commands) addTo(command, name, each);
}
for (const command of [
  newCommand(),
  showCommand(),
  printCommand(),
  drawCommand(),
  offsetsCommand(),
  battenCommand(),
  sawCommand(),
  stockCommand(),
  cardCommand(),
  checkCommand(),
  takeOffCommand(),
  printerCommand(),
  pageCommand(),
])
  addTo(program, 'fairlath', command);

/** A reader that stops early (`| head`) is no fault of anyone's. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? 0 : 1);
});

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? 0 : USER_MISTAKE;
  else process.exitCode = report(error);
}
