import { type Command, Option } from 'commander';
import { Fault } from '../../units/fault.ts';
import { parseLength, type Sign } from '../../units/parse-length.ts';
import type { Unit } from '../../units/unit.ts';

/** The only declaration of an option: `addOptions` gives it to the parser, `OptionValues` is the type of its value. */
export interface OptionSpec<F extends string = string, P extends Presence = Presence> {
  readonly flags: F;
  readonly help: string;
  readonly presence: P;
  readonly initial?: string;
}

type Presence = 'optional' | 'required' | 'default' | 'repeated';

type OptionGroup = { readonly heading: string };

export type OptionList = readonly (OptionSpec | OptionGroup)[];

const specMaker =
  <const P extends Presence>(presence: P) =>
  <const F extends string>(flags: F, help: string): OptionSpec<F, P> => ({ flags, help, presence });

export const option = specMaker('optional');
/** Optional options by their flags, each with its help. */
export const optional = <F extends string>(helps: Readonly<Record<F, string>>) =>
  Object.entries<string>(helps).map(([flags, help]) => option(flags, help)) as OptionalSpec<F>[];

type OptionalSpec<F extends string> = { [K in F]: OptionSpec<K, 'optional'> }[F];

export const requiredOption = specMaker('required');
export const repeatedOption = specMaker('repeated');

export const optionWithDefault = <const F extends string>(
  flags: F,
  help: string,
  initial: string,
): OptionSpec<F, 'default'> => ({ flags, help, presence: 'default', initial });

export const group = (heading: string): OptionGroup => ({ heading });

/** "-o, --output <FILE>" gives "output", "--no-cover" gives "cover", "--depth-of-cut <length>" gives "depthOfCut". */
type KeyOf<F extends string> = F extends `${string}--${infer Long}`
  ? Long extends `${infer Name} ${string}` | `no-${infer Name}`
    ? CamelCase<Name>
    : CamelCase<Long>
  : never;

type CamelCase<S extends string> = S extends `${infer A}-${infer B}` ? `${A}${Capitalize<CamelCase<B>>}` : S;

type ValueOf<S extends OptionSpec> = S['presence'] extends 'repeated'
  ? readonly string[]
  : S['flags'] extends `${string}<${string}`
    ? string
    : boolean;

type IsGiven<S extends OptionSpec> = S['presence'] extends 'optional'
  ? S['flags'] extends `--no-${string}`
    ? true
    : false
  : true;

type Specs<O extends OptionList> = Extract<O[number], OptionSpec>;

export type OptionValues<O extends OptionList> = {
  readonly [S in Specs<O> as IsGiven<S> extends true ? KeyOf<S['flags']> : never]: ValueOf<S>;
} & {
  readonly [S in Specs<O> as IsGiven<S> extends true ? never : KeyOf<S['flags']>]?: ValueOf<S>;
};

export const nameOf = <F extends string>({ flags }: OptionSpec<F>): KeyOf<F> =>
  new Option(flags).attributeName() as KeyOf<F>;

export function addOptions(command: Command, options: OptionList): Command {
  for (const one of options) {
    if ('heading' in one) command.optionsGroup(one.heading);
    else addOption(command, commanderOption(one));
  }
  return command;
}

/** Names that options had before. Command lines and scripts that were written with them still work. */
const FORMER_NAMES: Readonly<Record<string, string>> = {
  '--story-stick': '--gauge',
  '--blade-thickness': '--gauge',
};

function addOption(command: Command, made: Option): void {
  command.addOption(made);
  const former = FORMER_NAMES[made.long ?? ''];
  if (former === undefined) return;
  const hidden = new FormerOption(former, made);
  command.addOption(hidden);
  refuseBoth(command, made, hidden);
}

/** Not in the help. Its value is that of the option by its present name. */
class FormerOption extends Option {
  constructor(
    name: string,
    private readonly present: Option,
  ) {
    super(present.flags.replace(/--[\w-]+/, name), present.description);
    this.hideHelp();
    if (present.parseArg) this.argParser(present.parseArg);
  }

  override attributeName(): string {
    return this.present.attributeName();
  }
}

function refuseBoth(command: Command, ...spellings: readonly Option[]): void {
  const given = new Set<string>();
  const [{ long: name = '' } = {}] = spellings;
  for (const { long } of spellings)
    command.on(`option:${long?.slice(2)}`, () => {
      given.add(`${long}`);
      if (given.size > 1) throw repeatedFault(name, [...given]);
    });
}

const repeatedFault = (name: string, typed: readonly string[]): Fault =>
  new Fault('command.repeated', `given twice, as ${typed.join(' and as ')}. Use one of them.`, name);

/** Without this the parser would silently keep the second of two values. */
function refuseSecond(name: string): (typed: string) => string {
  let first: string | undefined;
  return (typed) => {
    if (first !== undefined)
      throw repeatedFault(
        name,
        [first, typed].map((each) => `"${each}"`),
      );
    first = typed;
    return typed;
  };
}

function commanderOption({ flags, help, presence, initial }: OptionSpec): Option {
  const made = new Option(flags, help);
  if (initial !== undefined) made.default(initial);
  if (presence === 'required') made.makeOptionMandatory();
  if (presence === 'repeated')
    made.default([]).argParser((typed: string, before: readonly string[]) => [...before, typed]);
  else if (made.required) made.argParser(refuseSecond(made.long ?? flags));
  return made;
}

/** Reads the value of an option. A mistake in the value gets the option as its key. */
export function atOption<T>(option: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof Fault ? error.at(option) : error;
  }
}

export function ownerFault(option: string, ...owners: readonly string[]): Fault {
  const flag = flagOf(option);
  const flags = owners.map(flagOf).join(' or ');
  return new Fault('command.belongs', `${flag} goes with ${flags}. Add ${flags}, or leave out ${flag}.`);
}

/** Plies are not cut from a board like a part: what says how is refused. */
export function refuseForLaminated(options: object, names: readonly string[]): void {
  const given = names.find((name) => (options as Record<string, unknown>)[name] !== undefined);
  if (given === undefined) return;
  const flag = flagOf(given);
  throw new Fault('command.laminated', `does not apply to a laminated part. Leave out ${flag}.`, flag);
}

export const parseLengthOption = (option: string, typed: string, unit: Unit, sign: Sign = 'any'): number =>
  atOption(option, () => parseLength(typed, unit, sign));

/** The lengths among these options, by their names; absent where none is typed. "depthOfCut" is --depth-of-cut. */
export function readLengths<K extends string>(
  options: { readonly [key in NoInfer<K>]?: string },
  keys: readonly K[],
  unit: Unit,
  sign: Sign = 'positive',
): { [key in K]?: number } {
  const lengths: { [key in K]?: number } = {};
  for (const key of keys) {
    const typed = options[key];
    if (typed !== undefined) lengths[key] = parseLengthOption(flagOf(key), typed, unit, sign);
  }
  return lengths;
}

export const flagOf = (key: string): string =>
  `--${key.replace(/[A-Z]|\d+/g, (word) => `-${word.toLowerCase()}`)}`;
