import { Fault } from '../../units/fault.ts';
import { ownerFault } from './option-spec.ts';

type PrintTarget = Readonly<Partial<Record<'half' | 'gauge' | 'template' | 'form', boolean>>>;

const OPTION_OWNERS: Readonly<Record<string, readonly (keyof PrintTarget)[]>> = {
  every: ['gauge'],
  from: ['gauge'],
  edge: ['gauge', 'form'],
  bush: ['template'],
  bearing: ['template'],
  bit: ['template'],
  opening: ['template'],
  thickness: ['form'],
  plies: ['form'],
  formSide: ['form'],
  species: ['form'],
};

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
  for (const [option, users] of Object.entries(OPTION_OWNERS))
    if ((options as Record<string, unknown>)[option] !== undefined && !users.some((user) => options[user]))
      throw ownerFault(option, ...users);
  if (half && (gauge || form))
    throw new Fault(
      'command.no-half',
      gauge
        ? '--half: a gauge is walked along the whole part. Leave --half out.'
        : '--half: a form is built in one piece, clamps and all. Leave --half out.',
    );
}
