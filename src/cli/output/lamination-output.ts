import type { Part } from '../../part/part.ts';
import type { PlyPlan } from '../../shop/plies/plan-plies.ts';
import { weighPart } from '../../shop/stock/weight.ts';
import { lostShare } from '../../shop/strip/lamination.ts';
import {
  describeForm,
  describeGluing,
  describePlySet,
  describeResawing,
  laminationCautions,
  laminationSteps,
  plyRows,
} from '../../shop/words/describe-lamination.ts';
import { showMass } from '../../shop/words/describe-support.ts';
import type { SafetyNote } from '../../shop/words/safety.ts';
import { type LengthFormat, lengthFormat } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { safetyText, textTable } from './print-answer.ts';

/** How the part is laminated, for every command that plans it. */
export function laminationJson({ stack, species, lamination, form, lengths }: PlyPlan): object {
  const { springbackFrom, factor, ...plies } = lamination;
  return {
    edge: stack.edge.name,
    formSide: stack.form,
    species: species.name,
    ...plies,
    plyLengths: lengths,
    springback: {
      share: springbackFrom === 'beam theory' ? lostShare(plies.plies) : 1 - 1 / factor,
      lost: form.rise - form.askedRise,
      from: springbackFrom,
    },
    form: { factor, rise: form.rise, chord: form.chord, askedRise: form.askedRise, tails: form.tails },
  };
}

export function resawingJson({ resawing }: PlyPlan): object {
  const { lumber, ...figures } = resawing;
  return { ...figures, quarter: lumber?.lumber.name, roughThickness: lumber?.lumber.rough };
}

const list = (title: string, lines: readonly string[]): string => [title, ...lines].join('\n  ');

/** `stock` of a laminated part. */
export function laminatedStockText(part: Part, plan: PlyPlan): string {
  const words = lengthFormat(part.rule);
  return [
    headWords(part),
    list('Plies', describePlySet(plan, words)),
    list('Length of each ply', textTable(plyRows(plan, part, words)).split('\n')),
    list('Resawing', describeResawing(part, plan, words)),
    ...weightText(part, words),
    list('Clamps and glue', describeGluing(plan, words)),
    list('Form', describeForm(plan, words)),
    safetyText(laminationCautions(words.unit)),
  ].join('\n\n');
}

/** `saw` of a laminated part: its plies are sawn, and its ends. */
export function laminatedSawText(part: Part, plan: PlyPlan, cautions: readonly SafetyNote[]): string {
  const words = lengthFormat(part.rule);
  return [
    part.name,
    list('Resawing', describeResawing(part, plan, words)),
    list(
      'Order of work',
      laminationSteps(part, plan, words).map((step, i) => `${i + 1}. ${step}`),
    ),
    safetyText(cautions),
  ].join('\n\n');
}

const headWords = ({ name, quantity, stock }: Part): string =>
  present(
    name,
    [quantity > 1 && `quantity ${quantity}`, stock?.species, 'laminated'].filter(Boolean).join(', '),
  ).join('\n');

function weightText(part: Part, { unit }: LengthFormat): string[] {
  const { partMass } = weighPart(part);
  return partMass === undefined
    ? []
    : [list('Weight', [`a finished part weighs about ${showMass(partMass, unit)}`])];
}
