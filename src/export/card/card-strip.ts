import type { Part } from '../../part/part.ts';
import { adviseStrips, type RunsAdvice, stripToCut } from '../../shop/strip/part-strips.ts';
import type { StripAdvice } from '../../shop/strip/strip-advice.ts';
import { chooseStripSpecies } from '../../shop/wood/find-species.ts';
import { describeStrip, SIDE_WORDS, showForce, traceWords } from '../../shop/words/describe-strip.ts';
import { Fault } from '../../units/fault.ts';
import { showSizes } from '../../units/graduation.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { blankRow, keepWithNext, paragraph, type TextRow } from '../cover/text-columns.ts';
import {
  lengthWithoutUnit,
  printedLengthWords,
  printedSize,
  sentence,
  unitWord,
} from '../drawing/dimensions.ts';
import { wordTable } from '../tables/paper-table.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';
import { settingRows } from './setting-rows.ts';

export function adviseCurvedRuns(part: Part): RunsAdvice | undefined {
  try {
    const species = chooseStripSpecies(undefined, part.stock?.species);
    return adviseStrips(part, { species, rule: part.rule });
  } catch (error) {
    if (error instanceof Fault && error.code === 'strip.straight') return undefined;
    throw error;
  }
}

const SECTION = { name: 'strip', title: 'Batten', priority: 4 } as const;

/** Which batten to plane, and where its nails are driven; width in mm. */
export function stripSection(part: Part, runs: RunsAdvice | undefined, width: number): CardSection {
  if (!runs) {
    const words = 'The part has no curve. Draw it along a straightedge.';
    return { ...SECTION, variants: [{ rows: paragraph(words, width), list: [words] }] };
  }
  const { rule } = part;
  const advice = stripToCut(runs);
  const sentences = describeStrip(advice, printedLengthWords(rule)).map(sentence);
  const isNone = advice.others !== undefined;
  const { thickness, width: stripWidth, cutLength } = advice;
  const sizes = typesetMeasures(showSizes([thickness, stripWidth, cutLength], rule));
  const size = isNone ? 'none: the bend is too tight' : sizes;
  const nails = nailRows(part, runs);
  const table = nails.length === 0 ? [] : nailTable(part, nails, advice, width);
  const variant = (notes: readonly string[], below: readonly TextRow[]): SectionVariant => ({
    rows: [...settingRows(advice.species.name, size, notes, width), ...below],
    list: { species: advice.species.name, size, notes },
  });
  const full = variant(sentences.slice(isNone ? 0 : 1), table);
  return { ...SECTION, variants: [full] };
}

/** No rule sets out less than half a graduation: there the nail goes on the line. */
const settable = (mm: number, rule: Rule): string =>
  readOnRule(mm, rule).mark === 0 ? '0' : lengthWithoutUnit(mm, rule);

function nailRows({ rule, edges }: Part, runs: RunsAdvice): string[][] {
  const nailed = runs.filter(({ advice }) => advice.nails.length > 0 && !advice.others);
  const several = edges.length > 1 && new Set(nailed.map(({ edge }) => edge)).size > 1;
  return nailed.flatMap(({ edge, advice }) =>
    advice.nails.flatMap(({ at, centers, side, force, clamp }) => {
      const notes = [SIDE_WORDS[side], several ? edge : '', force > 0 ? showForce(force, rule.unit) : ''];
      return (clamp ? [at] : centers).map(({ x, y }, i) => [
        settable(x, rule),
        settable(y, rule),
        i > 0 ? '' : notes.filter((note) => note !== '').join(', '),
      ]);
    }),
  );
}

function nailTable({ rule }: Part, body: string[][], advice: StripAdvice, width: number): TextRow[] {
  const size = printedSize(advice.nailDiameter, rule);
  const head = `Centers of the ${size} nails. ${traceWords(advice.traced)}`;
  const table = wordTable(body, width, [`station, ${unitWord(rule)}`, 'offset', '']);
  return [...keepWithNext(paragraph(head, width)), ...table, blankRow(1)];
}
