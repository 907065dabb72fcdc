import type { Curve } from '../../curves/curve.ts';
import { fairnessOf } from '../../curves/fairness/fairness.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { apexName, type Figures } from '../../curves/measurements.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { planPlies } from '../../shop/plies/plan-plies.ts';
import { blankWarnings } from '../../shop/stock/blank.ts';
import { planWood, type WoodPlan } from '../../shop/stock/stock-plan.ts';
import { adviseStrips, mostStrained } from '../../shop/strip/part-strips.ts';
import { chooseStripSpecies } from '../../shop/wood/find-species.ts';
import { speciesInSentence } from '../../shop/wood/species.ts';
import { stockWarnings } from '../../shop/words/describe-lamination.ts';
import { runoutGrade, showVolume } from '../../shop/words/describe-stock.ts';
import { showMass } from '../../shop/words/describe-support.ts';
import { itemAt } from '../../units/checked.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { present } from '../../units/lists.ts';
import { showAngle, showFine, showPercent } from '../../units/number-format.ts';
import { NO_BREAK } from '../../units/typeset.ts';
import type { HighlightTarget } from '../canvas/highlight.ts';
import type { EvaluatedJob } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';

export interface FigureText extends HighlightTarget {
  /** Stable from frame to frame. */
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly isWarning?: boolean;
}

type LengthFormats = Pick<Store, 'lengthText' | 'ruleText' | 'roundedText' | 'rule'>;

export function quickFigures(evaluated: EvaluatedJob, formats: LengthFormats): FigureText[] {
  const { part } = evaluated;
  const curved = curvedRuns(evaluated);
  return [
    ...curved.flatMap((each) => runFigures(each, formats)),
    ...widthFigure(part, formats),
    ...(curved.length === 0 ? lengthFigures(part, formats) : []),
  ];
}

interface NamedRun {
  /** "upper, " where the part has several curved runs; "upper, arc 2, " where the edge has several. */
  readonly prefix: string;
  readonly edge: PartEdge;
  readonly run: Curve;
  readonly i: number;
  readonly figures: Figures;
}

/** The curved runs of every edge. Where an edge has several, each name says which. */
export function curvedRuns({ part, figures }: EvaluatedJob): NamedRun[] {
  const curved = part.edges.flatMap((edge, e) =>
    edge.runs.flatMap((run, i) =>
      run.kind === 'line' ? [] : [{ edge, run, i, figures: itemAt(itemAt(figures, e), i) }],
    ),
  );
  return curved.map((each) => {
    const own = curved.filter(({ edge }) => edge === each.edge);
    const alike = own.filter(({ run }) => run.kind === each.run.kind);
    const number = alike.length > 1 ? ` ${alike.indexOf(each) + 1}` : '';
    const which = own.length > 1 ? `${each.run.kind}${number}, ` : '';
    return { ...each, prefix: curved.length > 1 ? `${each.edge.name}, ${which}` : '' };
  });
}

function runFigures({ prefix, edge, run, i, figures }: NamedRun, formats: LengthFormats): FigureText[] {
  const { lengthText, ruleText, roundedText } = formats;
  const { apex, tightest, length } = figures;
  const figure = (name: string, label: string, value: string, at?: Point): FigureText => ({
    id: `${edge.name}[${i}].${name}`,
    edge: edge.name,
    label: `${prefix}${label}`,
    value,
    at,
  });
  const isArc = run.kind === 'arc';
  const place = apex && `station ${ruleText(apex.at.x)}, offset ${ruleText(apex.at.y)}`;
  const label = isArc ? 'radius' : 'tightest radius';
  const where = tightest && !isArc ? ` at station ${ruleText(tightest.at.x)}` : '';
  return present(
    apex && figure('apex', apexName(run), `${place}`, apex.at),
    apex && figure('rise', 'rise above its chord', lengthText(apex.rise), apex.at),
    tightest && figure('tightest', label, `${roundedText(tightest.radius)}${where}`, tightest.at),
    figure('length', `length of the ${run.kind}`, roundedText(length)),
  );
}

function widthFigure({ shape }: Part, { lengthText, ruleText }: LengthFormats): FigureText[] {
  if (shape.type !== 'closed') return [];
  const { width, at } = shape.leastWidth;
  const value = `${lengthText(width)} at station ${ruleText(at.x)}`;
  return [{ id: 'width', label: 'least width', value, at }];
}

const lengthFigures = ({ edges }: Part, { lengthText }: LengthFormats): FigureText[] =>
  edges.map((edge) => ({
    id: `${edge.name}.length`,
    label: `length of ${edge.name}`,
    value: lengthText(edge.length),
    edge: edge.name,
  }));

/** For when the pointer is idle. */
export function slowFigures(part: Part, formats: LengthFormats): FigureText[] {
  if (part.laminate) return laminatedFigures(part, formats);
  const wood = planWood(part, {});
  return [
    ...stripFigures(part, formats),
    ...runoutFigure(wood, formats),
    ...woodFigures(part, wood, formats),
    ...part.edges.flatMap((edge) => fairFigures(edge, formats)),
    ...warningFigures(part, [...part.warnings, ...blankWarnings(part, wood.blank)]),
  ];
}

/** Plies in place of a batten, a blank and its grain. */
function laminatedFigures(part: Part, formats: LengthFormats): FigureText[] {
  const plan = planPlies(part);
  const { lamination, resawing, form, stack, species } = plan;
  const { lengthText, roundedText, rule } = formats;
  const plies = `${lamination.plies} of ${showFine(lamination.plyThickness, rule.unit)}, ${roundedText(resawing.length)} long`;
  const strain =
    `${percent(lamination.strain)} in ${speciesInSentence(species)}: ${VERDICT_TEXT[lamination.verdict]} ` +
    `(up to ${percent(lamination.safeStrain)})`;
  const rises = `${lengthText(form.rise)}, ${stack.form} “${stack.edge.name}”`;
  const isWarning = lamination.verdict !== 'safe';
  return [
    { id: 'plies', label: 'plies', value: plies, edge: stack.edge.name },
    { id: 'ply-strain', label: 'strain of a ply', value: strain, edge: stack.edge.name, isWarning },
    { id: 'form', label: 'rise of the form', value: rises, edge: stack.edge.name },
    ...part.edges.flatMap((edge) => fairFigures(edge, formats)),
    ...warningFigures(part, [...part.warnings, ...stockWarnings(part, plan)]),
  ];
}

const warningFigures = (part: Part, warnings: readonly Warning[]): FigureText[] =>
  warnings.map(({ code, message }, i) => ({
    id: `warning.${code}.${i}`,
    label: 'caution',
    value: message,
    isWarning: true,
    ...edgeNamedIn(part, message),
  }));

const percent = (share: number): string => showPercent(share, 2).replace(' ', NO_BREAK);
const VERDICT_TEXT = { safe: 'safe', risky: 'over the limit', breaks: 'breaks' } as const;

function stripFigures(part: Part, { lengthText }: LengthFormats): FigureText[] {
  try {
    const { rule, stock } = part;
    const runs = adviseStrips(part, { species: chooseStripSpecies(undefined, stock?.species), rule });
    const { edge, advice } = mostStrained(runs);
    const value = advice.others
      ? `too tight for any batten of ${speciesInSentence(advice.species)}`
      : `${percent(advice.strain)} in ${speciesInSentence(advice.species)}, ${lengthText(advice.thickness)} thick: ${VERDICT_TEXT[advice.verdict]} ` +
        `(up to ${percent(advice.safeStrain)})`;
    const isWarning = advice.verdict !== 'safe';
    return [{ id: 'strip', label: 'strain of the batten', value, at: advice.worst.at, edge, isWarning }];
  } catch (error) {
    // A straight part has no batten.
    if (error instanceof Fault) return [];
    throw error;
  }
}

/** Smaller slopes leave the grain running from end to end of any part: 1 mm in a meter. */
const MIN_RUNOUT = 1e-3;

function runoutFigure({ grain }: WoodPlan, { ruleText }: LengthFormats): FigureText[] {
  const { angle, at, edge } = grain.worst;
  if (angle < MIN_RUNOUT) return [];
  const band = runoutGrade(grain).grade;
  const value = `${showAngle(angle)} at station ${ruleText(at.x)}${band === 'short' ? ': short grain' : ''}`;
  return [{ id: 'grain', label: 'grain runout', value, at, edge, isWarning: band === 'short' }];
}

function woodFigures({ quantity }: Part, wood: WoodPlan, { roundedText, rule }: LengthFormats): FigureText[] {
  const { blank, layers, amount } = wood;
  const sizes = present(blank.length, blank.width, blank.thickness).map(roundedText);
  const [first] = layers ?? [];
  const buy = amount?.rough && first && `${showVolume(amount.rough, rule, 1)} of ${first.lumber.name}`;
  const weight = amount?.weight && showMass(amount.weight.part, rule.unit);
  return [
    { id: 'blank', label: 'blank to cut it from', value: sizes.join(' × ') },
    ...(buy ? [{ id: 'buy', label: `buy for ${quantity}`, value: buy }] : []),
    ...(weight ? [{ id: 'weight', label: 'weighs about', value: weight }] : []),
  ];
}

const fairFigures = ({ name, runs }: PartEdge, { lengthText }: LengthFormats): FigureText[] =>
  fairnessOf(runs).remarks.map(({ code, at, message }, i) => ({
    id: `fair.${name}.${i}`,
    label: name,
    value: message(lengthText),
    edge: name,
    ...(at && { at }),
    isWarning: !['fairness.fair', 'fairness.fair-so-far', 'fairness.straight'].includes(code),
  }));

function edgeNamedIn({ edges }: Part, message: string): HighlightTarget {
  const edge = edges.find(({ name }) => message.includes(`"${name}"`)) ?? edges[0];
  return edge ? { edge: edge.name } : {};
}
