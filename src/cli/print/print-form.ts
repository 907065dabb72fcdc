import { figuresOf } from '../../curves/measurements.ts';
import { type Form, formOf } from '../../part/derived/bending-form.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { formFactor, type Lamination, laminate, lostShare } from '../../shop/strip/lamination.ts';
import { chooseStripSpecies } from '../../shop/wood/find-species.ts';
import { type LayOutOptions, layOut } from '../../tiling/tile.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { showFine } from '../../units/number-format.ts';
import { showLength } from '../../units/rule.ts';
import { type EdgeOptions, selectEdges } from '../options/edge-options.ts';
import { atOption, type OptionValues, option, readLengths } from '../options/option-spec.ts';
import { speciesOption } from '../options/shared-options.ts';
import { pick, pointJson } from '../output/print-answer.ts';
import type { PreparedPrint } from './prepared-print.ts';

export const FORM_OPTIONS = [
  option('--thickness <length>', 'of all plies together (default: each ply as thick as is safe)'),
  option('--plies <count>', 'how many (default: the fewest that are safe)'),
  speciesOption('the plies'),
] as const;

type FormOptions = OptionValues<typeof FORM_OPTIONS> &
  Pick<EdgeOptions, 'edge'> & { readonly cover: boolean };

/** `print --form`: the pattern of the form that the part is laminated on. */
export async function prepareForm(
  part: Part,
  options: FormOptions,
  sheets: LayOutOptions,
): Promise<PreparedPrint> {
  const { patternPages } = await import('../../export/sheets/pattern-pages.ts');
  const { formNotes } = await import('../../export/cover/pattern-notes.ts');
  const { edge, curvature } = selectCurvedEdge(part, options);
  const species = atOption('--species', () => chooseStripSpecies(options.species, part.stock?.species));
  const ask = { species, rule: part.rule, curvature, ...readPlySizes(part, options) };
  const lamination = atOption('--form', () => laminate(ask));
  const form = atOption('--form', () => formOf(part, edge, formFactor(lamination.plies)));
  const layout = layOut(form.part, sheets);
  const notes = formNotes(part, edge.name, form, lamination, species);
  return {
    part: form.part,
    title: form.part.name,
    layout,
    ...patternPages(form.part, layout, options.cover, notes),
    json: { form: asJson(edge.name, species.name, form, lamination) },
    messages: asText(part, edge.name, species.name, form, lamination),
    warnings: plyWarnings(part, lamination),
  };
}

function selectCurvedEdge(part: Part, options: FormOptions): { edge: PartEdge; curvature: number } {
  const [first, second] = selectEdges(part, options)
    .map((edge) => {
      const radii = edge.runs.map((run) => figuresOf(run).tightest?.radius ?? Infinity);
      return { edge, curvature: 1 / Math.min(...radii) };
    })
    .filter(({ curvature }) => curvature > 0);
  if (!first)
    throw new Fault('form.straight', 'there is no curve to bend plies to: glue them up flat.', '--form');
  if (second)
    throw new Fault(
      'form.which-edge',
      `both edges are curved, "${first.edge.name}" and "${second.edge.name}". Say which the form’s face touches: --edge.`,
      '--form',
    );
  return first;
}

function readPlySizes({ rule }: Part, options: FormOptions): { plies?: number; thickness?: number } {
  const { plies } = options;
  return {
    ...(plies !== undefined && { plies: atOption('--plies', () => parsePlies(plies)) }),
    ...readLengths(options, { thickness: 'positive' }, rule.unit),
  };
}

function parsePlies(typed: string): number {
  if (!/^\d{1,6}$/.test(typed))
    throw new Fault('form.plies', `"${typed}" is no number of plies. Write a whole number such as 8.`);
  const plies = Number(typed);
  lostShare(plies);
  return plies;
}

const asJson = (edge: string, species: string, form: Form, lamination: Lamination): object => ({
  edge,
  species,
  ...lamination,
  springback: { share: lostShare(lamination.plies), lost: form.rise - form.askedRise },
  line: {
    ...pick(form, 'length', 'chord', 'rise', 'askedRise'),
    ends: form.part.shape.type === 'line' ? form.part.shape.chord.map(pointJson) : [],
  },
});

function asText(
  part: Part,
  edge: string,
  species: string,
  form: Form,
  { plies, plyThickness, thickness, safePly, chartPly }: Lamination,
): string[] {
  const length = (mm: number): string => showLength(mm, part.rule);
  const chart = chartPly === undefined ? '' : `; a makers’ chart gives ${length(chartPly)} for soaked strips`;
  return [
    `Laminate "${edge}" from ${plies} plies of ${showFine(plyThickness, part.rule.unit)}, ${length(thickness)} in all. ${species} bends safely up to ${showFine(safePly, part.rule.unit)}${chart}.`,
    `The form rises ${length(form.rise)} over ${length(form.chord)}; off it, 1/${plies ** 2} of the bend springs back and leaves ${length(form.askedRise)}. Real wood and glue differ: bend a trial piece.`,
  ];
}

function plyWarnings(part: Part, { verdict, plyThickness, safePly }: Lamination): Warning[] {
  if (verdict === 'safe') return [];
  const ply = (mm: number): string => showFine(mm, part.rule.unit);
  const message = `a ply of ${ply(plyThickness)} ${verdict === 'breaks' ? 'breaks' : 'may break'} on this form. Use more plies of ${ply(safePly)} or less, or steam them.`;
  return [{ code: `form.${verdict}`, message }];
}
