import type { Box } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import type { SupportStand, TableEdge, TippingStretch } from '../../shop/saw/board-support.ts';
import { cutOrder } from '../../shop/words/cut-order.ts';
import { sawCautions } from '../../shop/words/saw-cautions.ts';
import { printedLengthWords, sentence } from '../card/card-words.ts';
import { circle, type Drawing, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { scaleRatio, standardScale } from '../drawing/drawing-scale.ts';
import { CAP_HEIGHT } from '../drawing/text-width.ts';
import { boxesAlongLines, type OccupiedSpace } from '../labels/free-space.ts';
import { SCREEN_FONT, widthInFont } from '../labels/place-labels.ts';
import { ringLabels } from '../labels/ring-labels.ts';
import {
  footTop,
  framePicture,
  PICTURE_INNER_MM,
  PICTURE_LABEL_MM,
  PICTURE_MARGIN_MM,
  PICTURE_WIDTH_MM,
  wrapPictureText,
} from './picture-frame.ts';
import { pictureLines } from './picture-lines.ts';
import { type PictureView, pictureView } from './picture-view.ts';
import { titledStationAxis } from './station-axis.ts';

/** A tall board is drawn smaller rather than let the picture grow far higher than it is wide. */
const MAX_HEIGHT_MM = 130;
/** Rings at bends, and half the foot of a stand. */
const RING_RADIUS_MM = 1.2;
const STAND_HALF_MM = 2.4;
/** White round lines that no label covers. */
const CLEARANCE_MM = 0.6;
/** A row of words under the board: stands, then each stretch where it tips. */
const ROW_MM = 5;
const LABEL_GAP_MM = 1.5;
/** Over the board: the arrow of the cut, and room for a label. */
const HEADROOM_MM = 16;
/** Of that the labels’ share. */
const LABEL_BAND_MM = 7;
const FEED_ARROW_MM = 40;
const ARROW_HEAD_MM = 2.4;

/**
 * The board as it is fed past the blade of the band saw, to scale: the part on it, the tightest bends, the stretches of
 * the cut in which it would tip off the table, and the stands that bear it then; in words, the order of cuts and what
 * to take care of.
 */
export function composeSawPicture(part: Part, sawing: Sawing): Drawing {
  const { board } = sawing.weights;
  const { tips, stands } = sawing.support;
  const [wide, high] = [board.right - board.left, board.top - board.bottom];
  const factor = standardScale(Math.min((PICTURE_INNER_MM - 2 * STAND_HALF_MM) / wide, MAX_HEIGHT_MM / high));
  const foot = sawingLines(part, sawing);
  const rows = stands.length + tips.length;
  const ruleAt = footTop(foot) + 3 * PICTURE_LABEL_MM;
  const bottom = ruleAt + 3 * PICTURE_LABEL_MM + rows * ROW_MM;
  const top = bottom + high * factor;
  const shift = {
    x: (PICTURE_WIDTH_MM - (board.left + board.right) * factor) / 2,
    y: bottom - board.bottom * factor,
  };
  const view = pictureView(part, factor, shift);
  const lines = pictureLines(view);
  const area = {
    left: PICTURE_MARGIN_MM,
    right: PICTURE_WIDTH_MM - PICTURE_MARGIN_MM,
    bottom,
    top: top + LABEL_BAND_MM,
  };
  const edge = boardOutline(board, view);
  const room = {
    area,
    occupied: boxesAlongLines(flatten([...lines, edge].flatMap(({ path }) => path)), CLEARANCE_MM),
  };
  const head = [`${scaleRatio(factor)}; the board on the band saw, fed left end first`];
  return framePicture({ title: part.name, head, foot }, top + HEADROOM_MM, [
    edge,
    ...lines,
    ...bendItems(part, sawing, view, room),
    ...feedArrow(view.at({ x: board.left, y: board.top })),
    ...stands.flatMap((stand, i) => standItems(stand, view, bottom, bottom - ROW_MM * (i + 1))),
    ...tips.flatMap((tip, i) => tipItems(tip, view, bottom - ROW_MM * (stands.length + i + 1))),
    ...titledStationAxis(view, ruleAt),
  ]);
}

function boardOutline({ left, right, bottom, top }: Box, { at }: PictureView): Stroke {
  const corners = [
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
    { x: left, y: bottom },
  ];
  return polyline('rule', corners.map(at));
}

/** The tightest hollows and rounds of the line to saw, and the corners that ask for a relief cut. */
function bendItems(
  { rule, shape }: Part,
  { blade }: Sawing,
  { at, path }: PictureView,
  room: OccupiedSpace,
): Item[] {
  const { rounded } = printedLengthWords(rule);
  const bends = [...blade.hollows, ...blade.rounds].map((bend) => ({
    spot: at(bend.at),
    text: `${bend.edge}: ${bend.kind}, radius ${rounded(bend.radius)}`,
  }));
  const corners = blade.corners
    .filter(({ kind }) => kind === 'inside')
    .map((corner) => ({
      spot: at(corner.at),
      text: `${corner.edge}: ${corner.ofShoulder ? 'crosscut' : 'relief cut'}`,
    }));
  const all = [...bends, ...corners].map(({ spot, text }) => ({
    text,
    rings: [circle('mark', spot, RING_RADIUS_MM)],
  }));
  return ringLabels(all, flatten(path(finishedLine(shape))), room);
}

/** Over the left end of the board: an arrow from where the blade comes in. */
function feedArrow({ x, y }: Point): Item[] {
  const [from, to] = [
    { x, y: y + (LABEL_BAND_MM + HEADROOM_MM) / 2 },
    { x: x + FEED_ARROW_MM, y: y + (LABEL_BAND_MM + HEADROOM_MM) / 2 },
  ];
  const head = [-1, 1].map((side) => ({ x: to.x - ARROW_HEAD_MM, y: to.y + (side * ARROW_HEAD_MM) / 2 }));
  return [
    polyline('rule', [from, to]),
    polyline('rule', [head[0]!, to, head[1]!]),
    words(
      'so the cut runs',
      { x: to.x + 2, y: to.y - (PICTURE_LABEL_MM * CAP_HEIGHT) / 2 },
      PICTURE_LABEL_MM,
    ),
  ];
}

/** A stand under the board, at the place that it bears when it is put there, and its name in a row below. */
function standItems(
  { where, station, walks }: SupportStand,
  { at }: PictureView,
  top: number,
  row: number,
): Item[] {
  const { x } = at({ x: station, y: 0 });
  const foot = top - STAND_HALF_MM * 1.5;
  const post = [
    { x: x - STAND_HALF_MM, y: foot },
    { x: x + STAND_HALF_MM, y: foot },
    { x, y: top },
  ];
  const down = [
    { x, y: foot },
    { x, y: row },
  ];
  const what = walks ? 'helper' : 'stand';
  const when = where === 'infeed' ? 'before the table, as the cut begins' : 'behind the table, as it ends';
  return [
    { ...polyline('mark', post, true), filled: true },
    polyline('rule', down),
    ...rowLabel(`${what} ${when}`, x, 0, row, 'outward'),
  ];
}

const OVERHANG_WORDS: Readonly<Record<TableEdge, string>> = {
  infeed: 'before the table',
  outfeed: 'behind the table',
  left: 'over the left of the table',
  right: 'over the right of the table',
};

/** A stretch of the cut, as a bar over its stations. */
function tipItems({ edge, beyond, from, to }: TippingStretch, { at }: PictureView, y: number): Item[] {
  const [left, right] = [at({ x: from, y: 0 }).x, at({ x: to, y: 0 }).x];
  const tick = (x: number): Item =>
    polyline('mark', [
      { x, y: y - RING_RADIUS_MM },
      { x, y: y + RING_RADIUS_MM },
    ]);
  const bar = polyline('mark', [
    { x: left, y },
    { x: right, y },
  ]);
  const middle = (left + right) / 2;
  return [
    bar,
    tick(left),
    tick(right),
    ...rowLabel(`${edge}: the weight hangs ${OVERHANG_WORDS[beyond]}`, middle, (right - left) / 2, y),
  ];
}

/**
 * Words beside something in a row: towards the middle, or outward where that leaves them on the picture; over it where
 * it is so wide that they stand on neither side.
 */
function rowLabel(text: string, x: number, half: number, y: number, way?: 'outward'): Item[] {
  const foot = y - (PICTURE_LABEL_MM * CAP_HEIGHT) / 2;
  const isLeft = x < PICTURE_WIDTH_MM / 2;
  const outward = (isLeft ? x : PICTURE_WIDTH_MM - x) - half - LABEL_GAP_MM - PICTURE_MARGIN_MM;
  const inward = PICTURE_WIDTH_MM - 2 * (half + LABEL_GAP_MM + PICTURE_MARGIN_MM) - outward;
  const width = widthInFont(text, SCREEN_FONT);
  if (width > Math.max(outward, inward))
    return [words(text, { x, y: y + CLEARANCE_MM }, PICTURE_LABEL_MM, 'middle')];
  const goesOut = width < outward && (way === 'outward' || width > inward);
  const toRight = isLeft !== goesOut;
  return toRight
    ? [words(text, { x: x + half + LABEL_GAP_MM, y: foot }, PICTURE_LABEL_MM)]
    : [words(text, { x: x - half - LABEL_GAP_MM, y: foot }, PICTURE_LABEL_MM, 'end')];
}

function sawingLines(part: Part, { edges, blade, support, height }: Sawing): string[] {
  const wording = printedLengthWords(part.rule);
  const order = cutOrder(part, edges, blade, support, wording).map((step, i) => `${i + 1}. ${step}`);
  const cautions = sawCautions(part, edges, height, wording).map(({ message }) => `Take care: ${message}`);
  return [...order, ...cautions].map(sentence).flatMap(wrapPictureText);
}
