import type { Part } from '../../part/part.ts';
import type { PlyPlan } from '../../shop/plies/plan-plies.ts';
import {
  describeForm,
  describeGluing,
  describePlySet,
  describeResawing,
  laminationSteps,
  plyRange,
  stockWarnings,
} from '../../shop/words/describe-lamination.ts';
import { showVolume } from '../../shop/words/describe-stock.ts';
import { showSizes } from '../../units/graduation.ts';
import { showFine } from '../../units/number-format.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { blankRow, numberedSteps, paragraphs } from '../cover/text-columns.ts';
import { printedLengthWords, sentence } from '../drawing/dimensions.ts';
import { wordTable } from '../tables/paper-table.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';
import { settingRows } from './setting-rows.ts';

/** What a laminated part has on its card instead of a blank, a batten and a blade; width in mm. */
export const plySections = (part: Part, plan: PlyPlan, width: number) => ({
  plies: pliesSection(part, plan, width),
  form: formSection(part, plan, width),
  resawing: resawingSection(part, plan, width),
  gluing: gluingSection(part, plan, width),
  order: stepsSection(part, plan, width),
});

/** The cut list: the plies, and the board that they come from. */
function plyListRow(part: Part, { resawing, lamination }: PlyPlan) {
  const { rule, stock, quantity } = part;
  const { lumber, rough, width, length, plies } = resawing;
  const sizes = (...mm: (number | undefined)[]): string => typesetMeasures(showSizes(mm, rule));
  return {
    part: part.name,
    quantity,
    species: stock?.species ?? 'not named in the job',
    plies,
    ply: typesetMeasures(`${sizes(length, width)}, ${showFine(lamination.plyThickness, rule.unit)} thick`),
    from: lumber ? `${typesetMeasures(lumber.lumber.name)} rough` : 'the job gives no thickness',
    boardFeet: rough ? rough.boardFeet.toFixed(1) : '',
  };
}

function pliesSection(part: Part, plan: PlyPlan, width: number): CardSection {
  const row = plyListRow(part, plan);
  const words = printedLengthWords(part.rule);
  const { rough } = plan.resawing;
  const amount = rough ? `, ${showVolume(rough, part.rule, 1)}` : '';
  const forAll = row.quantity > 1 ? ` for all ${row.quantity}` : '';
  const list = [
    ['wood', `${row.species}${amount}${forAll}`],
    ['from', row.from],
    ['plies', `${row.plies} of ${row.ply}`],
    ['lengths', typesetMeasures(plyRange(plan, part, words))],
  ];
  const warnings = [...stockWarnings(part, plan)].map(({ message }) => sentence(message));
  const details = describePlySet(plan, words).map(sentence);
  const variant = (notes: readonly string[]): SectionVariant => ({
    rows: [...wordTable(list, width), blankRow(1.2), ...paragraphs(notes, width)],
    list: { ...row, notes },
  });
  const variants = [[...warnings, ...details], [...warnings, ...details.slice(0, 1)], warnings].map(variant);
  return { name: 'cutList', title: 'Plies', priority: 2.5, variants, sufficientVariant: 2 };
}

function formSection(part: Part, plan: PlyPlan, width: number): CardSection {
  const words = printedLengthWords(part.rule);
  const { form, stack } = plan;
  const rises = `It touches the edge “${stack.edge.name}”, and rises ${words.exact(form.rise)} over a chord of ${words.exact(form.chord)}.`;
  const others = describeForm(plan, words).map(sentence).slice(1);
  const value = `${stack.form} the curve`;
  const variants = [[rises, ...others], [rises]].map((notes): SectionVariant => {
    return { rows: settingRows('form', value, notes, width), list: { what: 'form', value, notes } };
  });
  return { name: 'form', title: 'Form', priority: 3, variants, sufficientVariant: 1 };
}

function resawingSection(part: Part, plan: PlyPlan, width: number): CardSection {
  const words = printedLengthWords(part.rule);
  const { sawn, width: wide } = plan.resawing;
  const fine = (mm: number): string => typesetMeasures(showFine(mm, part.rule.unit));
  const board = wide === undefined ? '' : `Off a board ${words.rounded(wide)} thick. `;
  const short = `${board}Plane to ${fine(plan.lamination.plyThickness)}.`;
  const variants = [describeResawing(part, plan, words).map(sentence), [short]].map(
    (notes): SectionVariant => {
      const list = { what: 'saw each ply', value: fine(sawn), notes };
      return { rows: settingRows(list.what, list.value, notes, width), list };
    },
  );
  return { name: 'resawing', title: 'Resawing', priority: 4, variants, sufficientVariant: 1 };
}

function gluingSection(part: Part, plan: PlyPlan, width: number): CardSection {
  const words = printedLengthWords(part.rule);
  const { every, count } = plan.clamps;
  const short = `${count} clamps over a caul, one every ${words.rounded(every)}.`;
  const variants = [describeGluing(plan, words).map(sentence), [short]].map((list): SectionVariant => {
    return { rows: paragraphs(list, width), list };
  });
  return { name: 'gluing', title: 'Clamps and glue', priority: 5, variants, sufficientVariant: 1 };
}

function stepsSection(part: Part, plan: PlyPlan, width: number): CardSection {
  const list = laminationSteps(part, plan, printedLengthWords(part.rule)).map(sentence);
  return {
    name: 'order',
    title: 'Order of work',
    priority: 6,
    variants: [{ rows: numberedSteps(list, width), list }],
  };
}
