import type { Curve } from '../../curves/curve.ts';
import { fairnessOf } from '../../curves/fairness/fairness.ts';
import type { Figures } from '../../curves/measurements.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { blankWarnings } from '../../shop/stock/blank.ts';
import { planWood, type WoodPlan } from '../../shop/stock/stock-plan.ts';
import { adviseStrips, hardestOf } from '../../shop/strip/part-strips.ts';
import { stripSpecies } from '../../shop/wood/find-species.ts';
import { woodInSentence } from '../../shop/wood/species.ts';
import { runoutBand, sayVolume } from '../../shop/words/describe-stock.ts';
import { massWords } from '../../shop/words/describe-support.ts';
import type { ShowLength } from '../../units/fault.ts';
import { Fault } from '../../units/fault.ts';
import { showPercent } from '../../units/number-format.ts';
import type { Rule } from '../../units/rule.ts';
import { showAngle } from '../../units/show-angle.ts';
import { NO_BREAK } from '../../units/typeset.ts';
import type { Spot } from '../canvas/highlight.ts';
import type { Made } from '../state/evaluate-job.ts';

/** One figure of the part, in words, and where it is. */
export interface Figure extends Spot {
  /** The same from one frame to the next. */
  readonly id: string;
  readonly label: string;
  readonly value: string;
  /** A warning is said louder. */
  readonly isWarning?: boolean;
}

/** Lengths as they are shown, with their unit and without. */
export interface Speech {
  readonly length: ShowLength;
  readonly bare: ShowLength;
  /** Without a hair. */
  readonly about: ShowLength;
  /** The rule they are shown on. */
  readonly rule: Rule;
}

/** What is true in every frame: apex, rise, tightest radius and length of each curved run; least width. */
export function quickFigures(made: Made, speech: Speech): Figure[] {
  const { part } = made;
  const curved = curvedRuns(made);
  return [
    ...curved.flatMap((each) => runFigures(each, speech)),
    ...widthFigure(part, speech),
    ...(curved.length === 0 ? lengthFigures(part, speech) : []),
  ];
}

interface CurvedRun {
  /** Before its figures where the part has several: "upper, "; "upper, arc 2, " where its edge has several. */
  readonly of: string;
  readonly edge: PartEdge;
  readonly run: Curve;
  readonly i: number;
  readonly figures: Figures;
}

/** Every run that is no line, in the part's order. */
export function curvedRuns({ part, figures }: Made): CurvedRun[] {
  const curved = part.edges.flatMap((edge, e) =>
    edge.runs.flatMap((run, i) => (run.kind === 'line' ? [] : [{ edge, run, i, figures: figures[e]![i]! }])),
  );
  return curved.map((each) => {
    const own = curved.filter(({ edge }) => edge === each.edge);
    const alike = own.filter(({ run }) => run.kind === each.run.kind);
    const number = alike.length > 1 ? ` ${alike.indexOf(each) + 1}` : '';
    const which = own.length > 1 ? `${each.run.kind}${number}, ` : '';
    return { ...each, of: curved.length > 1 ? `${each.edge.name}, ${which}` : '' };
  });
}

function runFigures({ of, edge, run, i, figures }: CurvedRun, { length, bare, about }: Speech): Figure[] {
  const { apex, tightest, length: long } = figures;
  const id = `${edge.name}[${i}]`;
  const place = { edge: edge.name };
  return [
    ...(apex
      ? [
          {
            ...place,
            id: `${id}.apex`,
            label: `${of}apex`,
            value: `station ${bare(apex.at.x)}, offset ${bare(apex.at.y)}`,
            at: apex.at,
          },
          {
            ...place,
            id: `${id}.rise`,
            label: `${of}rise over its chord`,
            value: length(apex.rise),
            at: apex.at,
          },
        ]
      : []),
    ...(tightest
      ? [
          {
            ...place,
            id: `${id}.tightest`,
            ...(run.kind === 'arc'
              ? { label: `${of}radius`, value: about(tightest.radius) }
              : {
                  label: `${of}tightest radius`,
                  value: `${about(tightest.radius)} at station ${bare(tightest.at.x)}`,
                }),
            at: tightest.at,
          },
        ]
      : []),
    { ...place, id: `${id}.length`, label: `${of}length of the ${run.kind}`, value: about(long) },
  ];
}

function widthFigure({ shape }: Part, { length, bare }: Speech): Figure[] {
  if (shape.type !== 'closed') return [];
  const { width, at } = shape.leastWidth;
  return [{ id: 'width', label: 'least width', value: `${length(width)} at station ${bare(at.x)}`, at }];
}

const lengthFigures = ({ edges }: Part, { length }: Speech): Figure[] =>
  edges.map((edge) => ({
    id: `${edge.name}.length`,
    label: `length of ${edge.name}`,
    value: length(edge.length),
    edge: edge.name,
  }));

/** What is worked out once the hand rests: strip, grain, wood, how fair each edge is, warnings. */
export function slowFigures(part: Part, speech: Speech): Figure[] {
  const wood = planWood(part, {});
  return [
    ...stripFigures(part, speech),
    ...runoutFigure(wood, speech),
    ...woodFigures(part, wood, speech),
    ...part.edges.flatMap((edge) => fairFigures(edge, speech)),
    ...[...part.warnings, ...blankWarnings(part, wood.blank)].map(({ code, message }, i) => ({
      id: `warning.${code}.${i}`,
      label: 'take care',
      value: message,
      isWarning: true,
      ...edgeSpokenOf(part, message),
    })),
  ];
}

const percent = (share: number): string => showPercent(share, 2).replace(' ', NO_BREAK);
const VERDICTS = { safe: 'safe', risky: 'over the safe strain', breaks: 'it breaks' } as const;

function stripFigures(part: Part, { length }: Speech): Figure[] {
  try {
    const { rule, stock } = part;
    const runs = adviseStrips(part, { species: stripSpecies(undefined, stock?.species), rule });
    const { edge, advice } = hardestOf(runs);
    const value =
      `${percent(advice.strain)} in ${woodInSentence(advice.species)}, ${length(advice.thickness)} thick: ${VERDICTS[advice.verdict]} ` +
      `(up to ${percent(advice.safeStrain)})`;
    const isWarning = advice.verdict !== 'safe';
    return [{ id: 'strip', label: 'strain of the strip', value, at: advice.worst.at, edge, isWarning }];
  } catch (error) {
    // A straight part bends no strip.
    if (error instanceof Fault) return [];
    throw error;
  }
}

/** Shallower than this the grain runs from end to end of any part: 1 mm in a metre. */
const LEAST_RUNOUT = 1e-3;

function runoutFigure({ grain }: WoodPlan, { bare }: Speech): Figure[] {
  const { angle, at, edge } = grain.worst;
  if (angle < LEAST_RUNOUT) return [];
  const band = runoutBand(grain);
  const value = `${showAngle(angle)} at station ${bare(at.x)}${band === 'short' ? ': short grain' : ''}`;
  return [{ id: 'grain', label: 'grain runs out', value, at, edge, isWarning: band === 'short' }];
}

/** What to cut and to buy, and what a finished part weighs, as far as the job names its wood. */
function woodFigures(
  { quantity }: Part,
  { blank, layers, amount }: WoodPlan,
  { about, rule }: Speech,
): Figure[] {
  const sizes = [blank.length, blank.width, blank.thickness].flatMap((mm) =>
    mm === undefined ? [] : about(mm),
  );
  const [first] = layers ?? [];
  const buy = amount?.rough && first && `${sayVolume(amount.rough, rule, 1)} of ${first.quarter.name}`;
  return [
    { id: 'blank', label: 'blank, to cut it from', value: sizes.join(' × ') },
    ...(buy ? [{ id: 'buy', label: `to buy for ${quantity}`, value: buy }] : []),
    ...(amount?.weight
      ? [{ id: 'weight', label: 'weighs about', value: massWords(amount.weight.part, rule.unit) }]
      : []),
  ];
}

const fairFigures = ({ name, runs }: PartEdge, { length }: Speech): Figure[] =>
  fairnessOf(runs).remarks.map(({ code, at, message }, i) => ({
    id: `fair.${name}.${i}`,
    label: name,
    value: message(length),
    edge: name,
    ...(at && { at }),
    isWarning: code !== 'fairness.fair' && code !== 'fairness.straight',
  }));

/** A warning names its edge in quotes. */
function edgeSpokenOf({ edges }: Part, message: string): Spot {
  const edge = edges.find(({ name }) => message.includes(`"${name}"`)) ?? edges[0];
  return edge ? { edge: edge.name } : {};
}
