import { Command } from 'commander';
import { addHelpSections, type HelpSections, LENGTH_SYNTAX } from './help.ts';
import { type JobInput, QUICK_OPTIONS, type QuickValues, readJobInput } from './options/job-input.ts';
import { addOptions, group, type OptionList, type OptionValues } from './options/option-spec.ts';
import { jsonOption } from './options/shared-options.ts';
import { type CommandAnswer, printAnswer } from './output/print-answer.ts';

interface CommandSpec<O extends OptionList> extends HelpSections {
  readonly name: string;
  readonly summary: string;
  readonly description: string;
  readonly options: O;
}

/** The parser keeps the values of a run in the command, so each run needs a new command. */
type MakeCommand = () => Command;

type ArgumentValue<A extends string> = A extends `<${string}` ? string : string | undefined;

interface PlainCommandSpec<O extends OptionList, A extends string> extends CommandSpec<O> {
  readonly usage: string;
  readonly argument?: readonly [name: A, help: string];
  readonly run?: (options: OptionValues<O>, argument: ArgumentValue<A>) => void | Promise<void>;
  readonly subcommands?: readonly MakeCommand[];
}

/** A command that takes no job. */
export function plainCommand<const O extends OptionList, const A extends string = '[]'>(
  spec: PlainCommandSpec<O, A>,
): MakeCommand {
  const { usage, argument, options, run, subcommands = [] } = spec;
  return () => {
    const command = addHelpSections(addOptions(described(spec).usage(usage), options), spec);
    if (argument) command.argument(...argument);
    if (run)
      command.action((first) =>
        run(command.opts<OptionValues<O>>(), (argument && first) as ArgumentValue<A>),
      );
    if (subcommands.length > 0) command.helpCommand(false);
    for (const makeSubcommand of subcommands) command.addCommand(makeSubcommand());
    return command;
  };
}

type JobOptionValues<O extends OptionList> = OptionValues<O> &
  QuickValues &
  OptionValues<readonly [typeof jsonOption]>;

interface JobCommandSpec<O extends OptionList> extends CommandSpec<O> {
  /** The command needs one of these options besides the job. They are shown in its usage. */
  readonly needs?: readonly [string, ...string[]];
  /** The command has its own use of --units beside a job file. */
  readonly ownUnits?: true;
  readonly validate?: (options: OptionValues<O>) => void;
  readonly run: (input: JobInput, options: JobOptionValues<O>) => CommandAnswer | Promise<CommandAnswer>;
}

/** A command that takes JOB or, in its place, a quick line, and answers in text or with --json. */
export function jobCommand<const O extends OptionList>(spec: JobCommandSpec<O>): MakeCommand {
  const { name, needs, notes = [], options, ownUnits = false, validate, run } = spec;
  const all: OptionList = [
    ...options,
    jsonOption,
    group('Instead of JOB, a single curve:'),
    ...QUICK_OPTIONS,
    group('Options:'),
  ];
  const allNotes = [...notes, `${LENGTH_SYNTAX} A number without a unit is in the unit of the job.`];
  return () => {
    const command = described(spec)
      .usage(jobUsage(name, needs))
      .argument('[JOB]', 'job file. Omit it if you describe a single curve with the options below');
    return addHelpSections(addOptions(command, all), { ...spec, notes: allNotes }).action(
      async (file: string | undefined, values: JobOptionValues<O>) => {
        validate?.(values);
        const input = readJobInput(file, values, ownUnits ? ['units'] : []);
        printAnswer(name, await run(input, values), values.json ?? false);
      },
    );
  };
}

const described = ({ name, summary, description }: CommandSpec<OptionList>): Command =>
  new Command(name).summary(summary).description(description);

function jobUsage(name: string, needs: readonly string[] | undefined): string {
  const quick = '--curve KIND --chord LENGTH --rise LENGTH';
  const lines = needs
    ? [...needs.map((one) => `JOB ${one} [options]`), `${quick} ${needs[0]}`]
    : ['JOB [options]', `${quick} [options]`];
  return lines.join(`\n   or: fairlath ${name} `);
}
