import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import { hardestOf, type RunsAdvice } from '../../shop/strip/part-strips.ts';
import { stripCautions } from '../../shop/words/describe-strip.ts';
import { sawCautions } from '../../shop/words/saw-cautions.ts';
import type { Warning } from '../../units/fault.ts';
import { CAUTIONS } from '../cover/cover-words.ts';
import { paragraph, type Row } from '../cover/text-columns.ts';
import type { Item } from '../drawing/drawing.ts';
import { sentence, wordingOf } from './card-words.ts';

/** What stops the work or hurts first; the rest as it comes. */
const FIRST = [
  'strip.breaks',
  'strip.risky',
  'strip.nails',
  'saw.too-high',
  'saw.manual',
  'saw.fingers',
  'saw.guide',
];

/** Every caution there is for the part, the gravest first. */
export function cautionsOf(part: Part, sawing: Sawing, runs: RunsAdvice | undefined): string[] {
  const wording = wordingOf(part.rule);
  const strip = runs ? stripCautions(hardestOf(runs).advice, wording.length, wording.unit) : [];
  const all = [...sawCautions(part, sawing.edges, sawing.height, wording), ...strip];
  const rank = ({ code }: Warning): number => FIRST.indexOf(code) + 1 || FIRST.length + 1;
  const ranked = [...all].sort((a, b) => rank(a) - rank(b));
  return [
    ...part.warnings.map(({ message }) => sentence(message)),
    ...ranked.map(({ message }) => sentence(message)),
    CAUTIONS.at(-1)!,
  ];
}

/** As many cautions as two columns hold, in order: one that does not fit makes room for a shorter one. */
export function cautionItems(
  cautions: readonly string[],
  columns: readonly [Box, ...Box[]],
): { readonly items: Item[]; readonly shown: string[] } {
  const filled = columns.map((box) => ({ box, top: box.top, items: [] as Item[], shown: [] as string[] }));
  for (const caution of cautions) {
    const column = filled.find(({ box, top }) => {
      const rows = paragraph(caution, box.right - box.left);
      return top - heightOf(rows) >= box.bottom;
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

const heightOf = (rows: readonly Row[]): number =>
  rows.filter(({ blank }) => !blank).reduce((sum, { height }) => sum + height, 0);
