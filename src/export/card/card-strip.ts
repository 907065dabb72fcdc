import type { Part } from '../../part/part.ts';
import { adviseStrips, type RunsAdvice, stripToCut } from '../../shop/strip/part-strips.ts';
import type { StripAdvice } from '../../shop/strip/strip-advice.ts';
import type { StripNail } from '../../shop/strip/strip-nails.ts';
import { chooseStripSpecies } from '../../shop/wood/find-species.ts';
import { describeStrip, showForce } from '../../shop/words/describe-strip.ts';
import { Fault } from '../../units/fault.ts';
import { showSizes } from '../../units/graduation.ts';
import { typesetFractions } from '../../units/typeset.ts';
import { blankRow, paragraph, type TextRow } from '../cover/text-columns.ts';
import { lengthWithoutUnit, printedSize } from '../drawing/dimensions.ts';
import { wordTable } from '../tables/paper-table.ts';
import { printedLengthWords, sentence } from './card-words.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';
import { settingRows } from './setting-rows.ts';

/** The strip for each curved run; undefined for a part without a curve. */
export function adviseCurvedRuns(part: Part): RunsAdvice | undefined {
  try {
    return adviseStrips(part, {
      species: chooseStripSpecies(undefined, part.stock?.species),
      rule: part.rule,
    });
  } catch (error) {
    if (error instanceof Fault && error.code === 'strip.straight') return undefined;
    throw error;
  }
}

/** Which strip to plane, and where its nails stand. */
export function stripSection(part: Part, runs: RunsAdvice | undefined, width: number): CardSection {
  const name = 'strip';
  const title = 'Strip';
  if (!runs) {
    const words = 'The part has no curve: draw it along a straightedge.';
    return { name, title, priority: 4, variants: [{ rows: paragraph(words, width), list: [words] }] };
  }
  const advice = stripToCut(runs);
  const sentences = describeStrip(advice, printedLengthWords(part.rule).exact, part.rule.unit).map(sentence);
  const isNone = advice.verdict !== 'safe' && advice.maxThicknessOnRule === 0;
  const size = isNone ? 'none bends so far: trace' : stripSizeWords(part, advice);
  const nails = listNails(runs);
  const filling = (notes: readonly string[], below: readonly TextRow[]): SectionVariant => ({
    rows: [...settingRows(advice.species.name, size, notes, width), ...below],
    list: { species: advice.species.name, size, notes },
  });
  const nailTable = nailTableRows(part, nails, advice, width);
  const pointer = nails.length === 0 ? [] : paragraph('Where its nails stand: fairlath batten.', width);
  return {
    name,
    title,
    priority: 4,
    variants: [
      filling(sentences.slice(1), nailTable),
      filling(sentences.slice(1, 2), nailTable),
      filling([], nailTable),
      filling([], pointer),
    ],
    sufficientVariant: 2,
  };
}

/** "1⁄4 × 3⁄4 × 51 in": thickness, width, length. */
const stripSizeWords = ({ rule }: Part, { thickness, width, cutLength }: StripAdvice): string =>
  typesetFractions(showSizes([thickness, width, cutLength], rule));

interface NailRow extends StripNail {
  readonly edge: string;
}

const listNails = (runs: RunsAdvice): NailRow[] =>
  runs.flatMap(({ edge, advice }) => advice.nails.map((nail) => ({ ...nail, edge })));

/** On which side of the strip a nail stands, the strip lying along the reference line. */
const SIDE_WORDS: Readonly<Record<StripNail['side'], string>> = {
  left: 'above',
  right: 'below',
  either: 'either side',
  both: 'both sides',
};

function nailTableRows(
  { rule, edges }: Part,
  nails: readonly NailRow[],
  advice: StripAdvice,
  width: number,
): TextRow[] {
  if (nails.length === 0) return [];
  const size = printedSize(advice.nailDiameter, rule);
  const several = edges.length > 1 && new Set(nails.map(({ edge }) => edge)).size > 1;
  const body = nails.flatMap(({ centers, side, force, edge }) =>
    centers.map((at, i) => [
      lengthWithoutUnit(at.x, rule),
      lengthWithoutUnit(at.y, rule),
      i > 0
        ? ''
        : [
            SIDE_WORDS[side],
            ...(several ? [edge] : []),
            ...(force > 0 ? [showForce(force, rule.unit)] : []),
          ].join(', '),
    ]),
  );
  return [
    ...paragraph(
      `Middles of ${size} nails; trace along the ${advice.traced === 'left' ? 'upper' : 'lower'} face:`,
      width,
    ).map((row) => ({ ...row, withNext: true })),
    ...wordTable(body, width, [`at, ${rule.unit}`, 'out', '']),
    blankRow(1),
  ];
}
