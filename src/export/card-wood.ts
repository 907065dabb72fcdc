import { pathBox, unitedBox } from '../curves/box.ts';
import type { Box } from '../curves/curve.ts';
import { finishedLine } from '../part/finished-line.ts';
import type { Part } from '../part/part.ts';
import { blankWarnings } from '../shop/blank.ts';
import { sayGrain } from '../shop/say-stock.ts';
import type { StockPlan } from '../shop/stock-plan.ts';
import { typesetFractions } from '../units/typeset.ts';
import type { Filling, Section } from './card-sections.ts';
import { about, bareAbout, quantityOf, sentence } from './card-words.ts';
import { gap, paragraph, type Row, table } from './columns.ts';

/** One line of the cut list. */
export interface CutListRow {
  readonly part: string;
  readonly quantity: number;
  readonly species: string;
  readonly finished: string;
  readonly rough: string;
  readonly layers: string;
  readonly boardFeet: string;
}

/** The part over all once it is finished, long points of its ends counted, mm. */
export function finishedBox(part: Part): Box {
  const line = pathBox([...finishedLine(part.shape)]);
  const backs = (part.ends ?? []).flatMap(({ back }) => back);
  return unitedBox([line, ...backs.map(({ x, y }): Box => ({ left: x, right: x, bottom: y, top: y }))]);
}

/** What to get, and what comes of it. */
export function cutListOf(part: Part, { blank, layers, amount }: StockPlan): CutListRow {
  const { rule, stock } = part;
  const { left, right, bottom, top } = finishedBox(part);
  const sizes = (...mm: (number | undefined)[]): string =>
    `${mm.flatMap((one) => (one === undefined ? [] : [bareAbout(one, rule)])).join(' × ')} ${rule.unit}`;
  const [first] = layers ?? [];
  return {
    part: part.name,
    quantity: part.quantity,
    species: stock?.species ?? 'write stock.species to name the wood',
    finished:
      part.shape.type === 'closed'
        ? sizes(right - left, top - bottom, stock?.thickness)
        : 'a line on the board',
    rough: sizes(blank.length, blank.width, blank.thickness),
    layers: first
      ? `${first.count === 1 ? '1 board' : `${first.count} layers`} of ${typesetFractions(first.quarter.name)}, ${about(first.quarter.rough, rule)} rough`
      : layers
        ? 'no rough board is sold thick enough: glue it up of more layers'
        : 'write stock.thickness to get rough thickness and board feet',
    boardFeet: amount?.rough ? amount.rough.boardFeet.toFixed(1) : '',
  };
}

/** The blank, its thickness from the yard, board feet for all, and the cut list. */
export function woodSection(part: Part, plan: StockPlan, width: number): Section {
  const row = cutListOf(part, plan);
  const list = [
    ['quantity', quantityOf(part)],
    ['wood', row.species],
    ['rough', row.rough],
    ['finished', row.finished],
    ['thickness', row.layers],
    ...(row.boardFeet === '' ? [] : [['board feet', `${row.boardFeet} for all`]]),
  ];
  const warned = blankWarnings(part, plan.blank).map(({ message }) => sentence(message));
  const filling = (notes: readonly string[]): Filling => ({
    rows: [...table(list, width), gap(1.2), ...notes.flatMap((note): Row[] => paragraph(note, width))],
    list: { ...row, notes },
  });
  const grain = sayGrain(plan, part.rule)
    .slice(0, 1)
    .map((words) => sentence(`grain ${words}`));
  return {
    name: 'cutList',
    title: 'Wood',
    rank: 2.5,
    fillings: [filling([...warned, ...grain]), filling(warned), filling([])],
  };
}
