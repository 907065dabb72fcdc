import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import { mostStrained, type RunsAdvice } from '../../shop/strip/part-strips.ts';
import { laminationCautions } from '../../shop/words/describe-lamination.ts';
import { stripCautions } from '../../shop/words/describe-strip.ts';
import { safetyNote, signalled } from '../../shop/words/safety.ts';
import { sawCautions } from '../../shop/words/saw-cautions.ts';
import { LOST_LETTER } from '../../shop/words/written-warnings.ts';
import { sortByRank } from '../../units/lists.ts';
import { capitalize } from '../../units/number-format.ts';
import { drawRows, paragraph, type TextRow } from '../cover/text-columns.ts';
import { printedLengthWords, sentence } from '../drawing/dimensions.ts';
import type { Item } from '../drawing/drawing.ts';

/** First the cautions about what stops the work or hurts; the others follow in their own order. */
const URGENT_CODES = [
  ...['form-force', 'ply-saw', 'ply-plane'],
  ...['strip.breaks', 'strip.risky', 'strip.nails'],
  ...['saw.too-high', 'saw.manual', 'saw.fingers', 'saw.guide'],
];

/** Each after its signal word, the most urgent first. */
export function cardCautions(part: Part, sawing: Sawing, runs: RunsAdvice | undefined): string[] {
  const wording = printedLengthWords(part.rule);
  const strip = runs ? stripCautions(mostStrained(runs).advice, wording) : [];
  const all = part.laminate
    ? laminationCautions(wording.unit)
    : [...sawCautions(part, sawing, wording), ...strip];
  const ranked = sortByRank(all, URGENT_CODES, ({ code }) => code);
  const told = part.warnings.filter(({ code }) => code !== LOST_LETTER);
  const ofPart = told.map(({ code, message }) => ({
    code,
    level: 'caution' as const,
    message: capitalize(message),
  }));
  const notes = [...ofPart, ...ranked, safetyNote('general-people')];
  return notes.map((note) => sentence(signalled(note)));
}

/** As many cautions as the columns hold, in order: one that does not fit makes room for a shorter one. */
export function fitCautions(cautions: readonly string[], columns: readonly Box[]) {
  const filled = columns.map((box) => ({ box, top: box.top, items: [] as Item[], shown: [] as string[] }));
  for (const caution of cautions)
    for (const column of filled) {
      const { left, right, bottom } = column.box;
      const rows = paragraph(caution, right - left);
      if (column.top - rowsHeight(rows.filter(({ blank }) => !blank)) < bottom) continue;
      column.items.push(...drawRows(rows, left, column.top));
      column.top -= rowsHeight(rows);
      column.shown.push(caution);
      break;
    }
  return { items: filled.flatMap(({ items }) => items), shown: filled.flatMap(({ shown }) => shown) };
}

const rowsHeight = (rows: readonly TextRow[]): number => rows.reduce((sum, { height }) => sum + height, 0);
