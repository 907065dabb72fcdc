import { sharpestBend } from '../../curves/measurements.ts';
import { type Form, formOf, plyLength } from '../../part/derived/bending-form.ts';
import { type PlyStack, plyStackOf } from '../../part/derived/ply-stack.ts';
import type { Part } from '../../part/part.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { showFine } from '../../units/number-format.ts';
import { formFactor, type Lamination, laminate } from '../strip/lamination.ts';
import { chooseStripSpecies } from '../wood/find-species.ts';
import type { Species } from '../wood/species.ts';
import { type ClampPlan, planClamps } from './clamps-and-glue.ts';
import { planResawing, type Resawing, type ResawingOptions } from './resawing.ts';

/** All that a laminated part is made of, and how. */
export interface PlyPlan {
  readonly stack: PlyStack;
  readonly species: Species;
  readonly lamination: Lamination;
  readonly form: Form;
  /** From the ply on the form outward, with its tails, mm. */
  readonly lengths: readonly number[];
  readonly resawing: Resawing;
  readonly clamps: ClampPlan;
}

export interface PlyPlanOptions extends ResawingOptions {
  /** Instead of that of the stock. */
  readonly species?: string;
}

/** From the ply on the form outward, trimmed square at the ends of the tails, mm. */
export const plyLengths = (form: Form, { plies, plyThickness }: Lamination): number[] =>
  Array.from({ length: plies }, (_, i) => plyLength(form, (i + 0.5) * plyThickness));

/** Of a part that is laminated. @throws Fault `lamination.…` */
export function planPlies(part: Part, options: PlyPlanOptions = {}): PlyPlan {
  const stack = plyStackOf(part);
  const { edge, plies, thickness, factor, reach } = stack;
  const species = chooseStripSpecies(options.species, part.stock?.species);
  const pliesAbove = stack.form === 'below';
  const lamination = laminate({
    species,
    rule: part.rule,
    ...bendsOf(edge.pieces, pliesAbove),
    ...(plies !== undefined && { plies }),
    ...(thickness !== undefined && { thickness }),
    ...(factor !== undefined && { factor }),
  });
  const sharper = factor ?? formFactor(lamination.plies);
  const form = formOf(part, edge, sharper, pliesAbove, reach);
  const lengths = plyLengths(form, lamination);
  const resawing = planResawing(part, lamination, Math.max(...lengths), options);
  return {
    stack,
    species,
    lamination,
    form,
    lengths,
    resawing,
    clamps: planClamps(part, lamination, form, resawing),
  };
}

/** The sharpest bends of a face, 1/mm: where the plies lie round it, and where they lie in its hollow. */
export function bendsOf(pieces: PlyStack['edge']['pieces'], pliesAbove: boolean) {
  const bends = { left: sharpestBend(pieces, 1), right: sharpestBend(pieces, -1) };
  return pliesAbove
    ? { hollow: bends.left, curvature: bends.right }
    : { hollow: bends.right, curvature: bends.left };
}

/** Plies that may break, and what helps. */
export function plyWarnings(
  { rule }: Part,
  { verdict, plyThickness, safePly, thickness }: Lamination,
): Warning[] {
  if (verdict === 'safe') return [];
  const ply = (mm: number): string => showFine(mm, rule.unit);
  const enough = Math.ceil(thickness / safePly);
  const message =
    `a ply of ${ply(plyThickness)} ${verdict === 'breaks' ? 'breaks' : 'may break'} on this form. ` +
    `Use ${enough} plies or more, each ${ply(safePly)} thick or less, or steam them.`;
  return [{ code: `form.${verdict}`, message }];
}

/**
 * A ply that breaks dry and is thicker than makers' charts give for soaked ones is a mistake of the job.
 * @throws Fault `laminate.breaks`
 */
export function assertPliesBend(
  { laminate: asked }: Part,
  { plyThickness, verdict, chartPly, safePly, thickness, tightestRadius }: Lamination,
) {
  if (verdict !== 'breaks' || plyThickness <= (chartPly ?? 0)) return;
  throw new Fault(
    'laminate.breaks',
    (mm) =>
      `a ply of ${mm(plyThickness)} breaks at the tightest bend, a radius of ${mm(tightestRadius)}. ` +
      `Use "plies: ${Math.ceil(thickness / safePly)}" or more, each ${mm(safePly)} thick or less.`,
    asked?.ply === undefined ? 'laminate.plies' : 'laminate.ply',
  );
}
