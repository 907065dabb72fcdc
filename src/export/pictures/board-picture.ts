import { type Affine, apply } from '../../curves/geometry/affine.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { mapPath } from '../../curves/geometry/transform.ts';
import { finishedLine } from '../../part/finished-line.ts';
import type { Part } from '../../part/part.ts';
import { type Copy, onBoard } from '../../shop/nesting/copy-placement.ts';
import type { Nesting } from '../../shop/nesting/nest-copies.ts';
import type { StockPlan } from '../../shop/stock/stock-plan.ts';
import { percent, sayWay } from '../../shop/words/describe-stock.ts';
import { showAngle } from '../../units/show-angle.ts';
import { printed } from '../drawing/dimensions.ts';
import { type Drawing, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { scaleWords, usualScale } from '../drawing/drawing-scale.ts';
import { CAPITALS } from '../drawing/text-width.ts';
import { copyNumber, placeInWood } from '../full-size/copy-number.ts';
import { floorOver, INNER_MM, LABEL_MM, pictureLines, pictureSheet, SIDE_MM } from './picture-frame.ts';

/** Beside the board, for the measure of its width. */
const MEASURE_MM = 16;
const MOST_HEIGHT_MM = 170;
/** Between the board and the words above it. */
const WHITE_MM = 5;

/** The board to cut from with the copies of the part on it, its measures, the way of the grain and what is wasted. */
export function composeBoard(part: Part, plan: StockPlan, nesting: Nesting): Drawing {
  const { length, width } = nesting.board;
  const room = INNER_MM - MEASURE_MM;
  const factor = usualScale(Math.min(room / length, MOST_HEIGHT_MM / width));
  const notes = notesOf(part, plan, nesting).flatMap(pictureLines);
  const bottom = floorOver(notes) + 1.6 * MEASURE_MM;
  const view: View = {
    factor,
    left: SIDE_MM + (room - length * factor) / 2,
    bottom,
    board: nesting.board,
  };
  const head = [`${whichBoard(nesting)}, drawn ${scaleWords(factor)}`];
  return pictureSheet({ title: part.name, head, foot: notes }, bottom + width * factor + WHITE_MM, [
    boardEdge(view),
    ...nesting.copiesOn(1).flatMap((copy, i) => copyItems(part, copy, view, i + 1)),
    ...measures(part, nesting, view),
    ...grainArrow(view),
  ]);
}

const whichBoard = ({ boards }: Nesting): string => (boards === 1 ? 'the board' : `one of ${boards} boards`);

/** Board mm to picture mm. */
interface View {
  readonly factor: number;
  readonly left: number;
  readonly bottom: number;
  readonly board: Nesting['board'];
}

const at = ({ factor, left, bottom }: View, x: number, y: number): Point =>
  point(left + x * factor, bottom + y * factor);

function placed(view: View, toBoard: Affine, place: Point): Point {
  const { x, y } = apply(toBoard, place);
  return at(view, x, y);
}

const boardEdge = (view: View): Stroke => {
  const { length, width } = view.board;
  const corners = [at(view, 0, 0), at(view, length, 0), at(view, length, width), at(view, 0, width)];
  return polyline('rule', [...corners, corners[0]!]);
};

/** One copy: its finished line, its saw line and its number where there is room for it. */
function copyItems(part: Part, copy: Copy, view: View, number: number): Item[] {
  const { factor, left, bottom } = view;
  const drawn = (path: readonly Segment[]): Segment[] =>
    mapPath(onBoard(copy, path), [factor, 0, 0, factor, left, bottom]);
  const outline = finishedLine(part.shape);
  const text = copyNumber(part, copy, number);
  const place = part.shape.type === 'closed' ? placeInWood(part, text, LABEL_MM / factor) : undefined;
  const size = (place?.size ?? 0) * factor;
  return [
    { type: 'stroke', style: 'cut', path: drawn(outline), closed: true },
    ...(part.saw.length > 0
      ? [{ type: 'stroke', style: 'saw', path: drawn(part.saw), closed: true } as const]
      : []),
    ...(place && size >= LEAST_LABEL_MM
      ? [numberWords(text, placed(view, copy.toBoard, place.middle), size)]
      : []),
  ];
}

const numberWords = (text: string, { x, y }: Point, size: number): Item =>
  words(text, { x, y: y - (size * CAPITALS) / 2 }, size, 'middle');

/** Smaller figures cannot be read. */
const LEAST_LABEL_MM = 1.6;

const TICK_MM = 1.5;

/** A measured line with a tick at either end and its length in the middle, below it or to its right. */
function measure(from: Point, to: Point, text: string): Item[] {
  const lies = from.y === to.y;
  const [dx, dy] = lies ? [0, TICK_MM] : [TICK_MM, 0];
  const tick = ({ x, y }: Point): Item =>
    polyline('rule', [
      { x: x - dx, y: y - dy },
      { x: x + dx, y: y + dy },
    ]);
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const below = { x: middle.x, y: middle.y - LABEL_MM * 1.2 };
  const beside = { x: middle.x + LABEL_MM * 1.2, y: middle.y };
  return [
    polyline('rule', [from, to]),
    tick(from),
    tick(to),
    lies ? words(text, below, LABEL_MM, 'middle') : words(text, beside, LABEL_MM, 'middle', Math.PI / 2),
  ];
}

/** Length and width of the board. */
function measures({ rule }: Part, { board: { length, width } }: Nesting, view: View): Item[] {
  const low = view.bottom - GAP_MM;
  const right = at(view, length, 0).x + GAP_MM;
  return [
    ...measure({ x: at(view, 0, 0).x, y: low }, { x: at(view, length, 0).x, y: low }, printed(length, rule)),
    ...measure(
      { x: right, y: at(view, 0, 0).y },
      { x: right, y: at(view, 0, width).y },
      printed(width, rule),
    ),
  ];
}

const GAP_MM = 4;
const ARROW_MM = 36;
const HEAD_MM = 2.4;

/** A double arrow along the board, below it. */
function grainArrow({ left, bottom }: View): Item[] {
  const y = bottom - MEASURE_MM;
  const [from, to] = [left, left + ARROW_MM];
  const head = (x: number, way: 1 | -1): Item =>
    polyline('rule', [
      { x: x + way * HEAD_MM, y: y + 0.9 },
      { x, y },
      { x: x + way * HEAD_MM, y: y - 0.9 },
    ]);
  return [
    polyline('rule', [
      { x: from, y },
      { x: to, y },
    ]),
    head(from, 1),
    head(to, -1),
    words('grain', { x: to + 2, y: y - (LABEL_MM * CAPITALS) / 2 }, LABEL_MM),
  ];
}

function notesOf({ rule, quantity, sawAllowance }: Part, { grain }: StockPlan, nesting: Nesting): string[] {
  const { way, pitch, gap, perBoard, boards, across, along } = nesting;
  return [
    `${sayWay(way)}: ${across} across by ${along} along, ${perBoard} on a board, ${quantity} on ${boards}; they take ${printed(nesting.width, rule)} of the width`,
    `${printed(pitch, rule)} across the board from one to the next, never closer than ${printed(gap, rule)}; rectangles would take ${printed(nesting.rectangles.pitch, rule)}`,
    `${percent(nesting.yield)} of a full board becomes parts, ${percent(1 - nesting.yield)} is waste` +
      (grain.turn === 0 ? '' : `; the pattern is turned ${showAngle(grain.turn)} to the grain`),
    ...(sawAllowance > 0 ? ['dashed: the line to saw to; solid: the finished line'] : []),
  ];
}
