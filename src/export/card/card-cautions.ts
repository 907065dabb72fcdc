import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import { mostStrained, type RunsAdvice } from '../../shop/strip/part-strips.ts';
import { stripCautions } from '../../shop/words/describe-strip.ts';
import { sawCautions } from '../../shop/words/saw-cautions.ts';
import type { Warning } from '../../units/fault.ts';
import { CAUTIONS } from '../cover/cover-words.ts';
import { paragraph, type TextRow } from '../cover/text-columns.ts';
import type { Item } from '../drawing/drawing.ts';
import { printedLengthWords, sentence } from './card-words.ts';

/** What stops the work or hurts first; the rest as it comes. */
const URGENT_CODES = [
  'strip.breaks',
  'strip.risky',
  'strip.nails',
  'saw.too-high',
  'saw.manual',
  'saw.fingers',
  'saw.guide',
];

/** Every caution there is for the part, the gravest first. */
export function cardCautions(part: Part, sawing: Sawing, runs: RunsAdvice | undefined): string[] {
  const wording = printedLengthWords(part.rule);
  const strip = runs ? stripCautions(mostStrained(runs).advice, wording.exact, wording.unit) : [];
  const all = [...sawCautions(part, sawing.edges, sawing.height, wording), ...strip];
  const rank = ({ code }: Warning): number => URGENT_CODES.indexOf(code) + 1 || URGENT_CODES.length + 1;
  const ranked = [...all].sort((a, b) => rank(a) - rank(b));
  return [
    ...part.warnings.map(({ message }) => sentence(message)),
    ...ranked.map(({ message }) => sentence(message)),
    CAUTIONS.at(-1)!,
  ];
}

/** As many cautions as two columns hold, in order: one that does not fit makes room for a shorter one. */
export function fitCautions(
  cautions: readonly string[],
  columns: readonly [Box, ...Box[]],
): { readonly items: Item[]; readonly shown: string[] } {
  const filled = columns.map((box) => ({ box, top: box.top, items: [] as Item[], shown: [] as string[] }));
  for (const caution of cautions) {
    const column = filled.find(({ box, top }) => {
      const rows = paragraph(caution, box.right - box.left);
      return top - rowsHeight(rows) >= box.bottom;
    });
    if (!column) continue;
    const { box } = column;
    for (const row of paragraph(caution, box.right - box.left)) {
      column.items.push(...row.draw(box.left, column.top));
      column.top -= row.height;
    }
    column.shown.push(caution);
  }
  return {
    items: filled.flatMap(({ items }) => items),
    shown: filled.flatMap(({ shown }) => shown),
  };
}

const rowsHeight = (rows: readonly TextRow[]): number =>
  rows.filter(({ blank }) => !blank).reduce((sum, { height }) => sum + height, 0);
