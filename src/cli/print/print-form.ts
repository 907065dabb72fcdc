import { sharpestBend } from '../../curves/measurements.ts';
import { type Form, formOf } from '../../part/derived/bending-form.ts';
import { halfOf } from '../../part/derived/half-pattern.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { bendsOf, type PlyPlan, planPlies, plyLengths, plyWarnings } from '../../shop/plies/plan-plies.ts';
import { type Lamination, laminate, lostShare } from '../../shop/strip/lamination.ts';
import { chooseStripSpecies } from '../../shop/wood/find-species.ts';
import { laminationSteps } from '../../shop/words/describe-lamination.ts';
import { describePlies } from '../../shop/words/describe-plies.ts';
import { linesToTile } from '../../tiling/grid/lines-to-tile.ts';
import { layOutLines } from '../../tiling/tile.ts';
import { Fault } from '../../units/fault.ts';
import { lengthFormat } from '../../units/graduation.ts';
import { type EdgeOptions, edgeFlag, selectEdges } from '../options/edge-options.ts';
import { atOption, flagOf, type OptionValues, optional, readLengths } from '../options/option-spec.ts';
import { speciesOption } from '../options/shared-options.ts';
import { pick, pointJson } from '../output/print-answer.ts';
import type { PreparePrint } from './prepared-print.ts';

export const FORM_OPTIONS = [
  ...optional({
    '--thickness <length>': 'thickness of all plies together (default: each ply as thick as is safe)',
    '--plies <count>': 'number of plies (default: the fewest that are safe)',
    '--form-side <side>':
      'side of a single edge that the form is on: below or above (default: outside the wood)',
  }),
  speciesOption('the plies'),
] as const;

type FormOptions = OptionValues<typeof FORM_OPTIONS>;

/** `print --form`: the pattern of the bending form for a lamination. */
export const prepareForm: PreparePrint<FormOptions> = async (part, options, sheets) => {
  const { patternPages } = await import('../../export/sheets/pattern-pages.ts');
  const { formNotes } = await import('../../export/cover/pattern-notes.ts');
  const { edge, species, lamination, form, steps } = part.laminate
    ? planOfJob(part, options)
    : planOfOptions(part, options);
  const pattern = options.half ? atOption('--half', () => halfOf(form.part)) : form.part;
  const lines = linesToTile(pattern);
  // Forms with the same curve differ by the side and the thickness of their plies.
  const identity = [...lines.identity, form.pliesAbove, lamination.plies, lamination.plyThickness];
  const layout = layOutLines({ ...lines, identity }, sheets);
  const notes = formNotes(form, lamination, edge, species, steps);
  const words = describePlies(form, lamination, species, lengthFormat(part.rule));
  const { size, chart, sides, lengths, springback } = words;
  return {
    part: pattern,
    title: pattern.name,
    layout,
    ...patternPages(pattern, layout, options.cover, notes),
    json: { form: asJson(edge, species.name, form, lamination) },
    messages: [`Laminate "${edge}". ${size} ${chart}`, `${sides} ${lengths}`, springback],
    warnings: part.laminate ? [] : plyWarnings(part, lamination),
  };
};

interface FormPlan extends Pick<PlyPlan, 'species' | 'lamination' | 'form'> {
  readonly edge: string;
  readonly steps?: readonly string[];
}

function planOfJob(part: Part, options: FormOptions & EdgeOptions): FormPlan {
  for (const name of ['thickness', 'plies', 'formSide', 'edge'] as const)
    if (options[name] !== undefined) {
      const flag = flagOf(name);
      throw new Fault(
        'form.of-job',
        `the job already says how to laminate the part. Leave out ${flag}.`,
        flag,
      );
    }
  const { species } = options;
  const plan = atOption('--form', () => planPlies(part, species === undefined ? {} : { species }));
  const steps = laminationSteps(part, plan, lengthFormat(part.rule));
  return { ...plan, edge: plan.stack.edge.name, steps };
}

function planOfOptions(part: Part, options: FormOptions & EdgeOptions): FormPlan {
  const edge = selectCurvedEdge(part, options);
  const pliesAbove = arePliesAbove(part, edge, options.formSide);
  const species = atOption('--species', () => chooseStripSpecies(options.species, part.stock?.species));
  const bends = bendsOf(edge.pieces, pliesAbove);
  const ask = { species, rule: part.rule, ...bends, ...readPlySizes(part, options) };
  const lamination = atOption('--form', () => laminate(ask));
  const form = atOption('--form', () => formOf(part, edge, lamination.factor, pliesAbove));
  return { edge: edge.name, species, lamination, form };
}

function arePliesAbove({ edges }: Part, { woodIsAbove }: PartEdge, side: string | undefined): boolean {
  if (side === undefined) return woodIsAbove;
  if ((side === 'below' || side === 'above') && edges.length === 1) return side === 'below';
  const cure =
    edges.length === 1
      ? `"${side}" is not a side. Use below or above.`
      : 'the plies are between the two edges of the part. Use --edge to name the edge that the form touches.';
  throw new Fault('form.side', cure, '--form-side');
}

function selectCurvedEdge(part: Part, options: Pick<EdgeOptions, 'edge'>): PartEdge {
  const isCurved = ({ pieces }: PartEdge) => sharpestBend(pieces, 1) > 0 || sharpestBend(pieces, -1) > 0;
  const [first, second] = selectEdges(part, options).filter(isCurved);
  if (!first) {
    const wording = 'the part has no curve, so it needs no form. Glue the plies up flat.';
    throw new Fault('form.straight', wording, '--form');
  }
  if (second) {
    const wording = `both edges are curved, "${first.name}" and "${second.name}". Name the edge that the form touches, such as ${edgeFlag(first)}.`;
    throw new Fault('form.which-edge', wording, '--form');
  }
  return first;
}

function readPlySizes({ rule }: Part, options: FormOptions): { plies?: number; thickness?: number } {
  const { plies } = options;
  return {
    ...(plies !== undefined && { plies: atOption('--plies', () => parsePlies(plies)) }),
    ...readLengths(options, ['thickness'], rule.unit),
  };
}

function parsePlies(typed: string): number {
  if (!/^\d{1,6}$/.test(typed))
    throw new Fault('form.plies', `"${typed}" is not a number of plies. Use a whole number such as 8.`);
  const plies = Number(typed);
  lostShare(plies);
  return plies;
}

const asJson = (edge: string, species: string, form: Form, lamination: Lamination): object => ({
  edge,
  species,
  ...lamination,
  formSide: form.pliesAbove ? 'below' : 'above',
  plyLengths: plyLengths(form, lamination),
  springback: { share: 1 - 1 / lamination.factor, lost: form.rise - form.askedRise },
  line: {
    ...pick(form, 'length', 'chord', 'rise', 'askedRise'),
    ends: form.part.shape.type === 'line' ? form.part.shape.chord.map(pointJson) : [],
  },
});
