import { Fault } from '../../units/fault.ts';
import { ownerFault } from './option-spec.ts';

type PrintTarget = Readonly<Partial<Record<'half' | 'gauge' | 'template' | 'form', boolean>>>;

type Owned = readonly [options: readonly string[], owners: readonly (keyof PrintTarget)[]];

const OPTION_OWNERS: readonly Owned[] = [
  [['every', 'from'], ['gauge']],
  [['edge'], ['gauge', 'form']],
  [['bush', 'bearing', 'bit', 'opening'], ['template']],
  [['thickness', 'plies', 'formSide', 'species'], ['form']],
];

const WHOLE_GAUGE = 'gauge is walked along the whole part';
const WHOLE_FORM = 'form is built in one piece, clamps and all';

/** Refuses what goes with another print, or with none. */
export function requireOneTarget(options: PrintTarget): void {
  const { half, gauge, template, form } = options;
  const targets = Object.entries({ gauge, template, form }).filter(([, on]) => on);
  const [one, other] = targets.map(([name]) => `--${name}`);
  if (one && other)
    throw new Fault(
      'command.two-prints',
      `${one} and ${other} exclude each other: each is a print of its own. Print one, then the other.`,
    );
  for (const [names, owners] of OPTION_OWNERS) {
    const given = names.find((name) => (options as Record<string, unknown>)[name] !== undefined);
    if (given && !owners.some((owner) => options[owner])) throw ownerFault(given, ...owners);
  }
  if (half && (gauge || form))
    throw new Fault('command.no-half', `--half: a ${gauge ? WHOLE_GAUGE : WHOLE_FORM}. Leave --half out.`);
}
