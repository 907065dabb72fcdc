import { transformPoint } from '../../curves/geometry/affine.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { lerp, type Point, point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { type Copy, onBoard } from '../../shop/nesting/copy-placement.ts';
import type { Nesting } from '../../shop/nesting/nest-copies.ts';
import type { StockPlan } from '../../shop/stock/stock-plan.ts';
import { ARRANGEMENT_WORDS } from '../../shop/words/describe-stock.ts';
import { capitalize, showAngle, showPercent } from '../../units/number-format.ts';
import { printedLength } from '../drawing/dimensions.ts';
import { type Drawing, type Item, measuredLine, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT } from '../drawing/text-width.ts';
import { copyNumber, placeTextInWood } from '../full-size/copy-number.ts';
import { fitStandardScale, framePicture, labelBaseline, PICTURE_LABEL_MM } from './picture-frame.ts';
import { boardOutline, type PictureView } from './picture-view.ts';

const DIMENSION_MM = 16;
const MAX_HEIGHT_MM = 170;
const WHITE_MM = 5;
const MIN_LABEL_MM = 1.6;
const TICK_MM = 1.5;
const GAP_MM = 4;
const GRAIN_ARROW_MM = 36;
const ARROW_HEAD_MM = 2.4;

/** The board to cut from: copies, measures, grain, waste. */
export function composeBoard(part: Part, plan: StockPlan, nesting: Nesting): Drawing {
  const bounds = { left: 0, bottom: 0, right: nesting.board.length, top: nesting.board.width };
  const { factor, ratio } = fitStandardScale(bounds, MAX_HEIGHT_MM, DIMENSION_MM);
  const which = nesting.boards === 1 ? 'the board' : `one of ${nesting.boards} boards`;
  return framePicture(part, {
    bounds,
    factor,
    below: 1.6 * DIMENSION_MM,
    above: WHITE_MM,
    right: DIMENSION_MM,
    head: `${capitalize(which)}, drawn ${ratio}`,
    foot: boardNotes(part, plan, nesting),
    draw: (view) => [
      boardOutline(bounds, view),
      ...nesting.copiesOn(1).flatMap((copy, i) => copyItems(copy, view, i + 1)),
      ...boardDimensions(nesting, view),
      ...grainArrow(view),
    ],
  });
}

function copyItems(copy: Copy, view: PictureView, number: number): Item[] {
  const { part, path } = view;
  const drawn = (style: 'cut' | 'saw', line: readonly Segment[]): Item[] =>
    line.length > 0 ? [{ type: 'stroke', style, path: path(onBoard(copy, line)), closed: true }] : [];
  const lines = [...drawn('cut', finishedLine(part.shape)), ...drawn('saw', part.saw)];
  return [...lines, ...numberLabel(copy, view, number)];
}

function numberLabel(copy: Copy, { part, factor, at }: PictureView, number: number): Item[] {
  if (part.shape.type !== 'closed') return [];
  const text = copyNumber(part, copy, number);
  const place = placeTextInWood(part, text, PICTURE_LABEL_MM / factor);
  const size = (place?.size ?? 0) * factor;
  if (!place || size < MIN_LABEL_MM) return [];
  const { x, y } = at(transformPoint(copy.toBoard, place.middle));
  return [words(text, point(x, y - (size * CAP_HEIGHT) / 2), size, 'middle')];
}

function dimensionLine(from: Point, to: Point, text: string): Item[] {
  const { x, y } = lerp(from, to, 0.5);
  const away = PICTURE_LABEL_MM * 1.2;
  return [
    ...measuredLine('rule', from, to, TICK_MM),
    from.y === to.y
      ? words(text, point(x, y - away), PICTURE_LABEL_MM, 'middle')
      : words(text, point(x + away, y), PICTURE_LABEL_MM, 'middle', Math.PI / 2),
  ];
}

function boardDimensions({ board: { length, width } }: Nesting, { part, at }: PictureView): Item[] {
  const [low, high] = [at(point(0, 0)), at(point(length, width))];
  const [below, beside] = [low.y - GAP_MM, high.x + GAP_MM];
  return [
    ...dimensionLine(point(low.x, below), point(high.x, below), printedLength(length, part.rule)),
    ...dimensionLine(point(beside, low.y), point(beside, high.y), printedLength(width, part.rule)),
  ];
}

function grainArrow({ at }: PictureView): Item[] {
  const corner = at(point(0, 0));
  const y = corner.y - DIMENSION_MM;
  const [from, to] = [corner.x, corner.x + GRAIN_ARROW_MM];
  const head = (x: number, back: number): Item =>
    polyline('rule', [point(back, y + 0.9), point(x, y), point(back, y - 0.9)]);
  return [
    polyline('rule', [point(from, y), point(to, y)]),
    head(from, from + ARROW_HEAD_MM),
    head(to, to - ARROW_HEAD_MM),
    words('grain', point(to + 2, labelBaseline(y)), PICTURE_LABEL_MM),
  ];
}

function boardNotes({ rule, quantity, sawAllowance }: Part, { grain }: StockPlan, nesting: Nesting) {
  const { way, pitch, gap, perBoard, boards, across, along, interlocked } = nesting;
  const show = (mm: number): string => printedLength(mm, rule);
  const laid = interlocked ? 'interlocked rows' : `${across} across by ${along} along`;
  const rectangles = `As rectangles, each would take ${show(nesting.rectangles.pitch)} across the board.`;
  const onBoards = boards === 1 ? '' : ` All ${quantity} need ${boards} boards.`;
  const apart = `At least ${show(gap)} is left between two parts.`;
  return [
    `${capitalize(ARRANGEMENT_WORDS[way])}: ${laid}, ${perBoard} on a board.${onBoards} Width used: ${show(nesting.width)}.`,
    interlocked
      ? `${apart} This is the closest of ${nesting.tried} layouts. ${rectangles}`
      : `Spacing across the board: ${show(pitch)}. ${apart} ${rectangles}`,
    `${showPercent(nesting.yield)} of a full board becomes parts, ${showPercent(1 - nesting.yield)} is waste.` +
      (grain.turn === 0 ? '' : ` The pattern is rotated ${showAngle(grain.turn)} from the grain.`),
    ...(sawAllowance > 0 ? ['Dashed: saw line. Solid: finished line.'] : []),
  ];
}
