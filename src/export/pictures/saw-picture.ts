import type { Box } from '../../curves/geometry/bounds.ts';
import { chordsOf } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { finishedLine } from '../../part/finished-line.ts';
import type { Part } from '../../part/part.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import type { Beyond, Stand, Tip } from '../../shop/saw/board-support.ts';
import { cutOrder } from '../../shop/words/cut-order.ts';
import { sawCautions } from '../../shop/words/saw-cautions.ts';
import { sentence, wordingOf } from '../card/card-words.ts';
import { circle, type Drawing, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { scaleWords, usualScale } from '../drawing/drawing-scale.ts';
import { CAPITALS } from '../drawing/text-width.ts';
import { type Room, strips } from '../labels/free-space.ts';
import { SCREEN, widthOf } from '../labels/picture-labels.ts';
import { labelledRings } from '../labels/ring-labels.ts';
import {
  floorOver,
  INNER_MM,
  LABEL_MM,
  pictureLines,
  pictureSheet,
  SIDE_MM,
  WIDTH_MM,
} from './picture-frame.ts';
import { partLines } from './picture-lines.ts';
import { type PictureView, pictureView } from './picture-view.ts';
import { namedStationRule } from './station-axis.ts';

/** A tall board is drawn smaller rather than let the picture grow far higher than it is wide. */
const MOST_HEIGHT_MM = 130;
/** Rings at bends, and half the foot of a stand. */
const RING_MM = 1.2;
const STAND_MM = 2.4;
/** White round lines that no label covers. */
const WHITE_MM = 0.6;
/** A row of words under the board: stands, then each stretch where it tips. */
const ROW_MM = 5;
const ASIDE_MM = 1.5;
/** Over the board: the arrow of the cut, and room for a label. */
const ABOVE_MM = 16;
/** Of that the labels’ share. */
const LABELS_MM = 7;
const ARROW_MM = 40;
const HEAD_MM = 2.4;

/**
 * The board as it is fed past the blade of the band saw, to scale: the part on it, the tightest bends, the stretches of
 * the cut in which it would tip off the table, and the stands that bear it then; in words, the order of cuts and what
 * to take care of.
 */
export function composeSawPicture(part: Part, sawing: Sawing): Drawing {
  const { board } = sawing.weights;
  const { tips, stands } = sawing.support;
  const [wide, high] = [board.right - board.left, board.top - board.bottom];
  const factor = usualScale(Math.min((INNER_MM - 2 * STAND_MM) / wide, MOST_HEIGHT_MM / high));
  const foot = footLines(part, sawing);
  const rows = stands.length + tips.length;
  const ruleAt = floorOver(foot) + 3 * LABEL_MM;
  const bottom = ruleAt + 3 * LABEL_MM + rows * ROW_MM;
  const top = bottom + high * factor;
  const shift = {
    x: (WIDTH_MM - (board.left + board.right) * factor) / 2,
    y: bottom - board.bottom * factor,
  };
  const view = pictureView(part, factor, shift);
  const lines = partLines(view);
  const area = { left: SIDE_MM, right: WIDTH_MM - SIDE_MM, bottom, top: top + LABELS_MM };
  const edge = boardEdge(board, view);
  const room = {
    area,
    taken: strips(chordsOf([...lines, edge].flatMap(({ path }) => path)), WHITE_MM),
  };
  const head = [`${scaleWords(factor)}; the board on the band saw, fed left end first`];
  return pictureSheet({ title: part.name, head, foot }, top + ABOVE_MM, [
    edge,
    ...lines,
    ...bendItems(part, sawing, view, room),
    ...wayOfCut(view.at({ x: board.left, y: board.top })),
    ...stands.flatMap((stand, i) => standItems(stand, view, bottom, bottom - ROW_MM * (i + 1))),
    ...tips.flatMap((tip, i) => tipItems(tip, view, bottom - ROW_MM * (stands.length + i + 1))),
    ...namedStationRule(view, ruleAt),
  ]);
}

function boardEdge({ left, right, bottom, top }: Box, { at }: PictureView): Stroke {
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
function bendItems({ rule, shape }: Part, { blade }: Sawing, { at, path }: PictureView, room: Room): Item[] {
  const { about } = wordingOf(rule);
  const bends = [...blade.hollows, ...blade.rounds].map((bend) => ({
    spot: at(bend.at),
    text: `${bend.edge}: ${bend.kind}, radius ${about(bend.radius)}`,
  }));
  const corners = blade.corners
    .filter(({ kind }) => kind === 'inside')
    .map((corner) => ({
      spot: at(corner.at),
      text: `${corner.edge}: ${corner.ofShoulder ? 'crosscut' : 'relief cut'}`,
    }));
  const all = [...bends, ...corners].map(({ spot, text }) => ({
    text,
    rings: [circle('mark', spot, RING_MM)],
  }));
  return labelledRings(all, chordsOf(path(finishedLine(shape))), room);
}

/** Over the left end of the board: an arrow from where the blade comes in. */
function wayOfCut({ x, y }: Point): Item[] {
  const [from, to] = [
    { x, y: y + (LABELS_MM + ABOVE_MM) / 2 },
    { x: x + ARROW_MM, y: y + (LABELS_MM + ABOVE_MM) / 2 },
  ];
  const head = [-1, 1].map((side) => ({ x: to.x - HEAD_MM, y: to.y + (side * HEAD_MM) / 2 }));
  return [
    polyline('rule', [from, to]),
    polyline('rule', [head[0]!, to, head[1]!]),
    words('so the cut runs', { x: to.x + 2, y: to.y - (LABEL_MM * CAPITALS) / 2 }, LABEL_MM),
  ];
}

/** A stand under the board, at the place that it bears when it is put there, and its name in a row below. */
function standItems({ where, station, walks }: Stand, { at }: PictureView, top: number, row: number): Item[] {
  const { x } = at({ x: station, y: 0 });
  const foot = top - STAND_MM * 1.5;
  const post = [
    { x: x - STAND_MM, y: foot },
    { x: x + STAND_MM, y: foot },
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
    ...beside(`${what} ${when}`, x, 0, row, 'outward'),
  ];
}

const HANGS: Readonly<Record<Beyond, string>> = {
  infeed: 'before the table',
  outfeed: 'behind the table',
  left: 'over the left of the table',
  right: 'over the right of the table',
};

/** A stretch of the cut, as a bar over its stations. */
function tipItems({ edge, beyond, from, to }: Tip, { at }: PictureView, y: number): Item[] {
  const [left, right] = [at({ x: from, y: 0 }).x, at({ x: to, y: 0 }).x];
  const tick = (x: number): Item =>
    polyline('mark', [
      { x, y: y - RING_MM },
      { x, y: y + RING_MM },
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
    ...beside(`${edge}: the weight hangs ${HANGS[beyond]}`, middle, (right - left) / 2, y),
  ];
}

/**
 * Words beside something in a row: towards the middle, or outward where that leaves them on the picture; over it where
 * it is so wide that they stand on neither side.
 */
function beside(text: string, x: number, half: number, y: number, way?: 'outward'): Item[] {
  const foot = y - (LABEL_MM * CAPITALS) / 2;
  const isLeft = x < WIDTH_MM / 2;
  const outward = (isLeft ? x : WIDTH_MM - x) - half - ASIDE_MM - SIDE_MM;
  const inward = WIDTH_MM - 2 * (half + ASIDE_MM + SIDE_MM) - outward;
  const width = widthOf(text, SCREEN);
  if (width > Math.max(outward, inward)) return [words(text, { x, y: y + WHITE_MM }, LABEL_MM, 'middle')];
  const goesOut = width < outward && (way === 'outward' || width > inward);
  const toRight = isLeft !== goesOut;
  return toRight
    ? [words(text, { x: x + half + ASIDE_MM, y: foot }, LABEL_MM)]
    : [words(text, { x: x - half - ASIDE_MM, y: foot }, LABEL_MM, 'end')];
}

function footLines(part: Part, { edges, blade, support, height }: Sawing): string[] {
  const wording = wordingOf(part.rule);
  const order = cutOrder(part, edges, blade, support, wording).map((step, i) => `${i + 1}. ${step}`);
  const cautions = sawCautions(part, edges, height, wording).map(({ message }) => `Take care: ${message}`);
  return [...order, ...cautions].map(sentence).flatMap(pictureLines);
}
