import type { Part } from '../../part/part.ts';
import { adviseStrips, type RunsAdvice, stripToCut } from '../../shop/strip/part-strips.ts';
import type { StripAdvice } from '../../shop/strip/strip-advice.ts';
import type { StripNail } from '../../shop/strip/strip-nails.ts';
import { stripSpecies } from '../../shop/wood/find-species.ts';
import { sayStrip, showForce } from '../../shop/words/describe-strip.ts';
import { Fault } from '../../units/fault.ts';
import { gap, paragraph, type Row, table } from '../cover/text-columns.ts';
import { bare, printedSize } from '../drawing/dimensions.ts';
import { settingRow } from './card-rows.ts';
import { bareAbout, sentence, wordingOf } from './card-words.ts';
import type { Filling, Section } from './fit-sections.ts';

/** The strip for each curved run; undefined for a part without a curve. */
export function stripsOf(part: Part): RunsAdvice | undefined {
  try {
    return adviseStrips(part, { species: stripSpecies(undefined, part.stock?.species), rule: part.rule });
  } catch (error) {
    if (error instanceof Fault && error.code === 'strip.straight') return undefined;
    throw error;
  }
}

/** Which strip to plane, and where its nails stand. */
export function stripSection(part: Part, runs: RunsAdvice | undefined, width: number): Section {
  const name = 'strip';
  const title = 'Strip';
  if (!runs) {
    const words = 'The part has no curve: draw it along a straightedge.';
    return { name, title, rank: 4, fillings: [{ rows: paragraph(words, width), list: [words] }] };
  }
  const advice = stripToCut(runs);
  const said = sayStrip(advice, wordingOf(part.rule).length, part.rule.unit).map(sentence);
  const isNone = advice.verdict !== 'safe' && advice.maxThicknessOnRule === 0;
  const size = isNone ? 'none bends so far: trace' : sizeWords(part, advice);
  const nails = nailRows(runs);
  const filling = (notes: readonly string[], below: readonly Row[]): Filling => ({
    rows: [...settingRow(advice.species.name, size, notes, width), ...below],
    list: { species: advice.species.name, size, notes },
  });
  const nailTable = tableOfNails(part, nails, advice, width);
  const pointer = nails.length === 0 ? [] : paragraph('Where its nails stand: fairlath batten.', width);
  return {
    name,
    title,
    rank: 4,
    fillings: [
      filling(said.slice(1), nailTable),
      filling(said.slice(1, 2), nailTable),
      filling([], nailTable),
      filling([], pointer),
    ],
    enough: 2,
  };
}

/** "1⁄4 × 3⁄4 × 51 in": thickness, width, length. */
const sizeWords = ({ rule }: Part, { thickness, width, cutLength }: StripAdvice): string =>
  `${[thickness, width, cutLength].map((mm) => bareAbout(mm, rule)).join(' × ')} ${rule.unit}`;

interface NailRow extends StripNail {
  readonly edge: string;
}

const nailRows = (runs: RunsAdvice): NailRow[] =>
  runs.flatMap(({ edge, advice }) => advice.nails.map((nail) => ({ ...nail, edge })));

/** On which side of the strip a nail stands, the strip lying along the reference line. */
const SIDES: Readonly<Record<StripNail['side'], string>> = {
  left: 'above',
  right: 'below',
  either: 'either side',
  both: 'both sides',
};

function tableOfNails(
  { rule, edges }: Part,
  nails: readonly NailRow[],
  advice: StripAdvice,
  width: number,
): Row[] {
  if (nails.length === 0) return [];
  const size = printedSize(advice.nailDiameter, rule);
  const several = edges.length > 1 && new Set(nails.map(({ edge }) => edge)).size > 1;
  const body = nails.flatMap(({ centres, side, force, edge }) =>
    centres.map((at, i) => [
      bare(at.x, rule),
      bare(at.y, rule),
      i > 0
        ? ''
        : [SIDES[side], ...(several ? [edge] : []), ...(force > 0 ? [showForce(force, rule.unit)] : [])].join(
            ', ',
          ),
    ]),
  );
  return [
    ...paragraph(
      `Middles of ${size} nails; trace along the ${advice.traced === 'left' ? 'upper' : 'lower'} face:`,
      width,
    ).map((row) => ({ ...row, withNext: true })),
    ...table(body, width, [`at, ${rule.unit}`, 'out', '']),
    gap(1),
  ];
}
