import { Fault } from '../../units/fault.ts';
import { flagOf, ownerFault } from './option-spec.ts';

type PrintTarget = Readonly<Partial<Record<'half' | 'storyStick' | 'template' | 'form', boolean>>>;

type Owned = readonly [options: readonly string[], owners: readonly (keyof PrintTarget)[]];

const OPTION_OWNERS: readonly Owned[] = [
  [['every', 'from'], ['storyStick']],
  [['edge'], ['storyStick', 'form']],
  [['bush', 'bearing', 'bit', 'opening'], ['template']],
  [['thickness', 'plies', 'formSide', 'species'], ['form']],
];

const WHOLE_STICK = 'a story stick shows the whole part';

/** Refuses two prints at once, and an option that belongs to another print. */
export function requireOneTarget(options: PrintTarget): void {
  const { half, storyStick, template, form } = options;
  const targets = Object.entries({ storyStick, template, form }).filter(([, on]) => on);
  const [one, other] = targets.map(([name]) => flagOf(name));
  if (one && other)
    throw new Fault('command.two-prints', `Use ${one} or ${other}, not both. Each is a separate print.`);
  for (const [names, owners] of OPTION_OWNERS) {
    const given = names.find((name) => (options as Record<string, unknown>)[name] !== undefined);
    if (given && !owners.some((owner) => options[owner])) throw ownerFault(given, ...owners);
  }
  if (half && storyStick) throw new Fault('command.no-half', `--half: ${WHOLE_STICK}. Leave out --half.`);
}
