import { type Command, Option } from 'commander';

/**
 * The options of a command, declared once: commander gets them by `addOptions`, and the type of the values that it
 * hands over follows from the same list by `OptionValues`.
 */
export interface OptionSpec<F extends string = string, P extends Presence = Presence> {
  readonly flags: F;
  readonly help: string;
  readonly presence: P;
  readonly initial?: string;
}

type Presence = 'optional' | 'required' | 'default' | 'repeated';

/** The heading over the options that follow. */
export interface OptionGroup {
  readonly heading: string;
}

export type OptionList = readonly (OptionSpec | OptionGroup)[];

export const option = <const F extends string>(flags: F, help: string): OptionSpec<F, 'optional'> => ({
  flags,
  help,
  presence: 'optional',
});

export const optionWithDefault = <const F extends string>(
  flags: F,
  help: string,
  initial: string,
): OptionSpec<F, 'default'> => ({ flags, help, presence: 'default', initial });

export const requiredOption = <const F extends string>(
  flags: F,
  help: string,
): OptionSpec<F, 'required'> => ({
  flags,
  help,
  presence: 'required',
});

export const repeatedOption = <const F extends string>(
  flags: F,
  help: string,
): OptionSpec<F, 'repeated'> => ({
  flags,
  help,
  presence: 'repeated',
});

export const group = (heading: string): OptionGroup => ({ heading });

/** "-o, --output <FILE>" gives "output", "--no-cover" gives "cover", "--depth-of-cut <length>" gives "depthOfCut". */
type KeyOf<F extends string> = F extends `${string}--${infer Long}`
  ? Long extends `${infer Name} ${string}`
    ? CamelCase<Name>
    : Long extends `no-${infer Name}`
      ? CamelCase<Name>
      : CamelCase<Long>
  : never;

type CamelCase<S extends string> = S extends `${infer A}-${infer B}` ? `${A}${Capitalize<CamelCase<B>>}` : S;

type ValueOf<S extends OptionSpec> = S['presence'] extends 'repeated'
  ? readonly string[]
  : S['flags'] extends `${string}<${string}`
    ? string
    : boolean;

/** Whether commander always hands over a value. */
type IsGiven<S extends OptionSpec> = S['presence'] extends 'optional'
  ? S['flags'] extends `--no-${string}`
    ? true
    : false
  : true;

type Specs<O extends OptionList> = Extract<O[number], OptionSpec>;

/** The values of a list of options, as typed. */
export type OptionValues<O extends OptionList> = {
  readonly [S in Specs<O> as IsGiven<S> extends true ? KeyOf<S['flags']> : never]: ValueOf<S>;
} & {
  readonly [S in Specs<O> as IsGiven<S> extends true ? never : KeyOf<S['flags']>]?: ValueOf<S>;
};

/** The name under which commander hands over the value of an option. */
export const nameOf = <F extends string>({ flags }: OptionSpec<F>): KeyOf<F> =>
  new Option(flags).attributeName() as KeyOf<F>;

/** Adds options to a command, in the order of its help. */
export function addOptions(command: Command, options: OptionList): Command {
  for (const one of options) {
    if ('heading' in one) command.optionsGroup(one.heading);
    else command.addOption(commanderOption(one));
  }
  return command;
}

function commanderOption({ flags, help, presence, initial }: OptionSpec): Option {
  const made = new Option(flags, help);
  if (initial !== undefined) made.default(initial);
  if (presence === 'required') made.makeOptionMandatory();
  if (presence === 'repeated')
    made.default([]).argParser((typed: string, before: readonly string[]) => [...before, typed]);
  return made;
}
