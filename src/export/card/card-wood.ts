import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { blankWarnings } from '../../shop/stock/blank.ts';
import type { LayerChoice } from '../../shop/stock/lumber-thicknesses.ts';
import type { WoodPlan } from '../../shop/stock/stock-plan.ts';
import { describeGrain, showVolume, weakGrainWords } from '../../shop/words/describe-stock.ts';
import { showSizes } from '../../units/graduation.ts';
import type { Rule } from '../../units/rule.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { blankRow, paragraphs } from '../cover/text-columns.ts';
import { about, sentence } from '../drawing/dimensions.ts';
import { wordTable } from '../tables/paper-table.ts';
import { boundsWithBacks } from './card-drawing.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';

/** Finished sizes reach to the long points of the ends. */
export function cutListRow(part: Part, { blank, layers, amount }: WoodPlan) {
  const { rule, stock, shape } = part;
  const { left, right, bottom, top } = boundsWithBacks(part, [...finishedLine(part.shape)]);
  const sizes = (...mm: (number | undefined)[]): string => typesetMeasures(showSizes(mm, rule));
  const closed = shape.type === 'closed';
  return {
    part: part.name,
    quantity: part.quantity,
    species: stock?.species ?? 'not named in the job',
    finished: closed ? sizes(right - left, top - bottom, stock?.thickness) : 'a line on the board',
    // Under one line there is no more than the board it is drawn on.
    rough: closed
      ? sizes(blank.length, blank.width, blank.thickness)
      : sizes(stock?.length ?? blank.length, stock?.width, stock?.thickness),
    from: roughStockWords(layers, rule),
    boardFeet: amount?.rough ? amount.rough.boardFeet.toFixed(1) : '',
  };
}

function roughStockWords(layers: readonly LayerChoice[] | undefined, rule: Rule): string {
  if (!layers) return 'the job gives no thickness';
  const [first] = layers;
  if (!first) return 'no board is thick enough: glue up layers';
  const { count, lumber } = first;
  const boards = count === 1 ? '1 board' : `${count} layers`;
  const size = lumber.name.endsWith(rule.unit) ? '' : `, ${about(lumber.rough, rule)}`;
  return `${boards} of ${typesetMeasures(lumber.name)}${size} rough`;
}

/** The blank, the boards to buy and the cut list; width in mm. */
export function woodSection(part: Part, plan: WoodPlan, width: number): CardSection {
  const row = cutListRow(part, plan);
  const closed = part.shape.type === 'closed';
  const rough = plan.amount?.rough;
  const forAll = row.quantity > 1 ? ` for all ${row.quantity}` : '';
  const amount = rough ? `, ${showVolume(rough, part.rule, 1)}${forAll}` : '';
  const list = [
    ['wood', `${row.species}${amount}`],
    ['from', row.from],
    [closed ? 'blank' : 'board', row.rough],
    ['finished', row.finished],
  ];
  const warnings = blankWarnings(part, plan.blank).map(({ message }) => sentence(message));
  const variant = (notes: readonly string[]): SectionVariant => ({
    rows: [...wordTable(list, width), blankRow(1.2), ...paragraphs(notes, width)],
    list: { ...row, notes },
  });
  const grain = describeGrain(plan, part.rule)
    .slice(0, 1)
    .map((words) => sentence(`grain ${words}`));
  const weak = weakGrainWords(part) === undefined ? [] : grain;
  const variants = [[...warnings, ...grain], [...warnings, ...weak], weak].map(variant);
  return { name: 'cutList', title: 'Wood', priority: 2.5, variants, sufficientVariant: 1 };
}
