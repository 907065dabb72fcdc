import { type Affine, transformPoint } from '../../curves/geometry/affine.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { type Copy, onBoard } from '../../shop/nesting/copy-placement.ts';
import type { Nesting } from '../../shop/nesting/nest-copies.ts';
import type { StockPlan } from '../../shop/stock/stock-plan.ts';
import { ARRANGEMENT_WORDS } from '../../shop/words/describe-stock.ts';
import { showAngle, showPercent } from '../../units/number-format.ts';
import { printedLength } from '../drawing/dimensions.ts';
import { type Drawing, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { scaleRatio, standardScale } from '../drawing/drawing-scale.ts';
import { CAP_HEIGHT } from '../drawing/text-width.ts';
import { copyNumber, placeTextInWood } from '../full-size/copy-number.ts';
import {
  footTop,
  framePicture,
  PICTURE_INNER_MM,
  PICTURE_LABEL_MM,
  PICTURE_MARGIN_MM,
  wrapPictureText,
} from './picture-frame.ts';

/** Beside the board, for the measure of its width. */
const DIMENSION_MM = 16;
const MAX_HEIGHT_MM = 170;
/** Between the board and the words above it. */
const WHITE_MM = 5;

/** The board to cut from with the copies of the part on it, its measures, the way of the grain and what is wasted. */
export function composeBoard(part: Part, plan: StockPlan, nesting: Nesting): Drawing {
  const { length, width } = nesting.board;
  const room = PICTURE_INNER_MM - DIMENSION_MM;
  const factor = standardScale(Math.min(room / length, MAX_HEIGHT_MM / width));
  const notes = boardNotes(part, plan, nesting).flatMap(wrapPictureText);
  const bottom = footTop(notes) + 1.6 * DIMENSION_MM;
  const view: BoardView = {
    factor,
    left: PICTURE_MARGIN_MM + (room - length * factor) / 2,
    bottom,
    board: nesting.board,
  };
  const head = [`${boardWords(nesting)}, drawn ${scaleRatio(factor)}`];
  return framePicture({ title: part.name, head, foot: notes }, bottom + width * factor + WHITE_MM, [
    boardOutline(view),
    ...nesting.copiesOn(1).flatMap((copy, i) => copyItems(part, copy, view, i + 1)),
    ...boardDimensions(part, nesting, view),
    ...grainArrow(view),
  ]);
}

const boardWords = ({ boards }: Nesting): string => (boards === 1 ? 'the board' : `one of ${boards} boards`);

/** Board mm to picture mm. */
interface BoardView {
  readonly factor: number;
  readonly left: number;
  readonly bottom: number;
  readonly board: Nesting['board'];
}

const pictureXY = ({ factor, left, bottom }: BoardView, x: number, y: number): Point =>
  point(left + x * factor, bottom + y * factor);

function boardToPicture(view: BoardView, toBoard: Affine, place: Point): Point {
  const { x, y } = transformPoint(toBoard, place);
  return pictureXY(view, x, y);
}

const boardOutline = (view: BoardView): Stroke => {
  const { length, width } = view.board;
  const corners = [
    pictureXY(view, 0, 0),
    pictureXY(view, length, 0),
    pictureXY(view, length, width),
    pictureXY(view, 0, width),
  ];
  return polyline('rule', [...corners, corners[0]!]);
};

/** One copy: its finished line, its saw line and its number where there is room for it. */
function copyItems(part: Part, copy: Copy, view: BoardView, number: number): Item[] {
  const { factor, left, bottom } = view;
  const drawn = (path: readonly Segment[]): Segment[] =>
    transformPath(onBoard(copy, path), [factor, 0, 0, factor, left, bottom]);
  const outline = finishedLine(part.shape);
  const text = copyNumber(part, copy, number);
  const place =
    part.shape.type === 'closed' ? placeTextInWood(part, text, PICTURE_LABEL_MM / factor) : undefined;
  const size = (place?.size ?? 0) * factor;
  return [
    { type: 'stroke', style: 'cut', path: drawn(outline), closed: true },
    ...(part.saw.length > 0
      ? [{ type: 'stroke', style: 'saw', path: drawn(part.saw), closed: true } as const]
      : []),
    ...(place && size >= MIN_LABEL_MM
      ? [numberLabel(text, boardToPicture(view, copy.toBoard, place.middle), size)]
      : []),
  ];
}

const numberLabel = (text: string, { x, y }: Point, size: number): Item =>
  words(text, { x, y: y - (size * CAP_HEIGHT) / 2 }, size, 'middle');

/** Smaller figures cannot be read. */
const MIN_LABEL_MM = 1.6;

const TICK_MM = 1.5;

/** A measured line with a tick at either end and its length in the middle, below it or to its right. */
function dimensionLine(from: Point, to: Point, text: string): Item[] {
  const lies = from.y === to.y;
  const [dx, dy] = lies ? [0, TICK_MM] : [TICK_MM, 0];
  const tick = ({ x, y }: Point): Item =>
    polyline('rule', [
      { x: x - dx, y: y - dy },
      { x: x + dx, y: y + dy },
    ]);
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const below = { x: middle.x, y: middle.y - PICTURE_LABEL_MM * 1.2 };
  const beside = { x: middle.x + PICTURE_LABEL_MM * 1.2, y: middle.y };
  return [
    polyline('rule', [from, to]),
    tick(from),
    tick(to),
    lies
      ? words(text, below, PICTURE_LABEL_MM, 'middle')
      : words(text, beside, PICTURE_LABEL_MM, 'middle', Math.PI / 2),
  ];
}

/** Length and width of the board. */
function boardDimensions({ rule }: Part, { board: { length, width } }: Nesting, view: BoardView): Item[] {
  const low = view.bottom - GAP_MM;
  const right = pictureXY(view, length, 0).x + GAP_MM;
  return [
    ...dimensionLine(
      { x: pictureXY(view, 0, 0).x, y: low },
      { x: pictureXY(view, length, 0).x, y: low },
      printedLength(length, rule),
    ),
    ...dimensionLine(
      { x: right, y: pictureXY(view, 0, 0).y },
      { x: right, y: pictureXY(view, 0, width).y },
      printedLength(width, rule),
    ),
  ];
}

const GAP_MM = 4;
const GRAIN_ARROW_MM = 36;
const ARROW_HEAD_MM = 2.4;

/** A double arrow along the board, below it. */
function grainArrow({ left, bottom }: BoardView): Item[] {
  const y = bottom - DIMENSION_MM;
  const [from, to] = [left, left + GRAIN_ARROW_MM];
  const head = (x: number, way: 1 | -1): Item =>
    polyline('rule', [
      { x: x + way * ARROW_HEAD_MM, y: y + 0.9 },
      { x, y },
      { x: x + way * ARROW_HEAD_MM, y: y - 0.9 },
    ]);
  return [
    polyline('rule', [
      { x: from, y },
      { x: to, y },
    ]),
    head(from, 1),
    head(to, -1),
    words('grain', { x: to + 2, y: y - (PICTURE_LABEL_MM * CAP_HEIGHT) / 2 }, PICTURE_LABEL_MM),
  ];
}

function boardNotes(
  { rule, quantity, sawAllowance }: Part,
  { grain }: StockPlan,
  nesting: Nesting,
): string[] {
  const { way, pitch, gap, perBoard, boards, across, along } = nesting;
  return [
    `${ARRANGEMENT_WORDS[way]}: ${across} across by ${along} along, ${perBoard} on a board, ${quantity} on ${boards}; they take ${printedLength(nesting.width, rule)} of the width`,
    `${printedLength(pitch, rule)} across the board from one to the next, never closer than ${printedLength(gap, rule)}; rectangles would take ${printedLength(nesting.rectangles.pitch, rule)}`,
    `${showPercent(nesting.yield)} of a full board becomes parts, ${showPercent(1 - nesting.yield)} is waste` +
      (grain.turn === 0 ? '' : `; the pattern is turned ${showAngle(grain.turn)} to the grain`),
    ...(sawAllowance > 0 ? ['dashed: the line to saw to; solid: the finished line'] : []),
  ];
}
