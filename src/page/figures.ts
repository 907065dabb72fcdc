import type { Curve } from '../curves/curve.ts';
import { fairnessOf } from '../curves/fairness.ts';
import type { Figures } from '../curves/figures.ts';
import type { Part, PartEdge } from '../part/part.ts';
import { stripSpecies } from '../shop/find-species.ts';
import { adviseStrips, hardestOf } from '../shop/part-strips.ts';
import { worstRunout } from '../shop/runout.ts';
import { woodInSentence } from '../shop/species.ts';
import type { ShowLength } from '../units/fault.ts';
import { Fault } from '../units/fault.ts';
import { showPercent } from '../units/percent.ts';
import type { Spot } from './places.ts';
import type { Made } from './work.ts';

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
}

/** What is true in every frame: apex, rise, tightest radius and length of each curved run; least width. */
export function quickFigures({ part, figures }: Made, speech: Speech): Figure[] {
  const curved = part.edges.flatMap((edge, e) =>
    edge.runs.flatMap((run, i) => (run.kind === 'line' ? [] : [{ edge, run, i, figures: figures[e]![i]! }])),
  );
  const several = curved.length > 1;
  return [
    ...curved.flatMap((each) => runFigures(each, several ? `${each.edge.name}, ` : '', speech)),
    ...widthFigure(part, speech),
    ...(curved.length === 0 ? lengthFigures(part, speech) : []),
  ];
}

interface CurvedRun {
  readonly edge: PartEdge;
  readonly run: Curve;
  readonly i: number;
  readonly figures: Figures;
}

function runFigures(
  { edge, run, i, figures }: CurvedRun,
  of: string,
  { length, bare, about }: Speech,
): Figure[] {
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
            label: `${of}tightest radius`,
            value: `${about(tightest.radius)} at station ${bare(tightest.at.x)}`,
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

/** What is worked out once the hand rests: strip, grain, how fair each edge is, warnings. */
export const slowFigures = (part: Part, speech: Speech): Figure[] => [
  ...stripFigures(part, speech),
  ...runoutFigure(part, speech),
  ...part.edges.flatMap((edge) => fairFigures(edge, speech)),
  ...part.warnings.map(({ code, message }, i) => ({
    id: `warning.${code}.${i}`,
    label: 'take care',
    value: message,
    isWarning: true,
    ...edgeSpokenOf(part, message),
  })),
];

const percent = (share: number): string => showPercent(share, 2);
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

function runoutFigure(part: Part, { bare }: Speech): Figure[] {
  const { angle, at, edge } = worstRunout(part, 0);
  if (angle < LEAST_RUNOUT) return [];
  const value = `1 in ${Number((1 / Math.tan(angle)).toPrecision(2))} at station ${bare(at.x)}`;
  return [{ id: 'grain', label: 'grain runs out', value, at, edge }];
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
