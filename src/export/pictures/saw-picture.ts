import { flatten } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import type { SupportStand, TableEdge, TippingStretch } from '../../shop/saw/board-support.ts';
import { cutOrder } from '../../shop/words/cut-order.ts';
import { signalled } from '../../shop/words/safety.ts';
import { sawCautions } from '../../shop/words/saw-cautions.ts';
import { printedLengthWords, sentence } from '../drawing/dimensions.ts';
import { circle, type Drawing, type Item, measuredLine, polyline, words } from '../drawing/drawing.ts';
import { boxesAlongLines, type OccupiedSpace } from '../labels/free-space.ts';
import { SCREEN_FONT, widthInFont } from '../labels/place-labels.ts';
import { type RingLabel, ringLabels } from '../labels/ring-labels.ts';
import {
  fitStandardScale,
  framePicture,
  labelArea,
  labelBaseline,
  PICTURE_LABEL_MM,
  PICTURE_MARGIN_MM,
  PICTURE_WIDTH_MM,
} from './picture-frame.ts';
import { boardOutline, type PictureView, pictureLines } from './picture-view.ts';
import { titledStationAxis } from './station-axis.ts';

const MAX_HEIGHT_MM = 130;
const RING_RADIUS_MM = 1.2;
const STAND_HALF_MM = 2.4;
const CLEARANCE_MM = 0.6;
const ROW_MM = 5;
const LABEL_GAP_MM = 1.5;
const HEADROOM_MM = 16;
const LABEL_BAND_MM = 7;
const FEED_ARROW_MM = 40;
const ARROW_HEAD_MM = 2.4;

/** The board as it is fed past the blade: its tightest bends, where it would tip, the stands that support it. */
export function composeSawPicture(part: Part, sawing: Sawing): Drawing {
  const { board } = sawing.weights;
  const { tips, stands } = sawing.support;
  const { factor, ratio } = fitStandardScale(board, MAX_HEIGHT_MM, 2 * STAND_HALF_MM);
  return framePicture(part, {
    bounds: board,
    factor,
    below: 6 * PICTURE_LABEL_MM + (stands.length + tips.length) * ROW_MM,
    above: HEADROOM_MM,
    head: `${ratio} · the board on the band saw, left end fed first`,
    foot: sawingLines(part, sawing),
    draw: (view, { floor, bottom, top }) => {
      const row = (i: number): number => bottom - ROW_MM * (i + 1);
      const lines = [boardOutline(board, view), ...pictureLines(view)];
      const space = {
        area: labelArea(bottom, top + LABEL_BAND_MM),
        occupied: boxesAlongLines(flatten(lines.flatMap(({ path }) => path)), CLEARANCE_MM),
      };
      return [
        ...lines,
        ...bendItems(part, sawing, view, space),
        ...feedArrow(view.at(point(board.left, board.top))),
        ...stands.flatMap((stand, i) => standItems(stand, view, bottom, row(i))),
        ...tips.flatMap((tip, i) => tipItems(tip, view, row(stands.length + i))),
        ...titledStationAxis(view, floor + 3 * PICTURE_LABEL_MM),
      ];
    },
  });
}

function bendItems({ rule, shape }: Part, { blade }: Sawing, { at, path }: PictureView, room: OccupiedSpace) {
  const { rounded } = printedLengthWords(rule);
  const ring = (spot: Point, text: string): RingLabel => {
    return { text, rings: [circle('mark', at(spot), RING_RADIUS_MM)] };
  };
  const bends = [...blade.hollows, ...blade.rounds].map((bend) =>
    ring(bend.at, `${bend.edge}: ${bend.kind}, radius ${rounded(bend.radius)}`),
  );
  const corners = blade.corners
    .filter(({ kind }) => kind === 'inside')
    .map((corner) => ring(corner.at, `${corner.edge}: ${corner.ofShoulder ? 'crosscut' : 'relief cut'}`));
  return ringLabels([...bends, ...corners], flatten(path(finishedLine(shape))), room);
}

function feedArrow(corner: Point): Item[] {
  const y = corner.y + (LABEL_BAND_MM + HEADROOM_MM) / 2;
  const tip = point(corner.x + FEED_ARROW_MM, y);
  const back = tip.x - ARROW_HEAD_MM;
  const half = ARROW_HEAD_MM / 2;
  return [
    polyline('rule', [point(corner.x, y), tip]),
    polyline('rule', [point(back, y - half), tip, point(back, y + half)]),
    words('feed direction', point(tip.x + 2, labelBaseline(y)), PICTURE_LABEL_MM),
  ];
}

function standItems({ where, station, walks }: SupportStand, { at }: PictureView, top: number, row: number) {
  const { x } = at(point(station, 0));
  const foot = top - STAND_HALF_MM * 1.5;
  const post = [point(x - STAND_HALF_MM, foot), point(x + STAND_HALF_MM, foot), point(x, top)];
  const what = walks ? 'helper' : 'stand';
  const when =
    where === 'infeed'
      ? 'on the infeed side, for the start of the cut'
      : 'on the outfeed side, for the end of the cut';
  return [
    { ...polyline('mark', post, true), filled: true },
    polyline('rule', [point(x, foot), point(x, row)]),
    rowLabel(`${what} ${when}`, x, 0, row, 'outward'),
  ];
}

const OVERHANG_WORDS: Readonly<Record<TableEdge, string>> = {
  infeed: 'the infeed side',
  outfeed: 'the outfeed side',
  left: 'the left of the table',
  right: 'the right of the table',
};

function tipItems({ edge, beyond, from, to }: TippingStretch, { at }: PictureView, y: number): Item[] {
  const [left, right] = [at(point(from, 0)).x, at(point(to, 0)).x];
  const text = `${edge}: the weight hangs over ${OVERHANG_WORDS[beyond]}`;
  return [
    ...measuredLine('mark', point(left, y), point(right, y), RING_RADIUS_MM),
    rowLabel(text, (left + right) / 2, (right - left) / 2, y),
  ];
}

/** Outward where that leaves the words on the picture, else towards the middle; over it where neither side has room. */
function rowLabel(text: string, x: number, half: number, y: number, way?: 'outward'): Item {
  const foot = labelBaseline(y);
  const isLeft = x < PICTURE_WIDTH_MM / 2;
  const outward = (isLeft ? x : PICTURE_WIDTH_MM - x) - half - LABEL_GAP_MM - PICTURE_MARGIN_MM;
  const inward = PICTURE_WIDTH_MM - 2 * (half + LABEL_GAP_MM + PICTURE_MARGIN_MM) - outward;
  const width = widthInFont(text, SCREEN_FONT);
  if (width > Math.max(outward, inward))
    return words(text, point(x, y + CLEARANCE_MM), PICTURE_LABEL_MM, 'middle');
  const goesOut = width < outward && (way === 'outward' || width > inward);
  return isLeft === goesOut
    ? words(text, point(x - half - LABEL_GAP_MM, foot), PICTURE_LABEL_MM, 'end')
    : words(text, point(x + half + LABEL_GAP_MM, foot), PICTURE_LABEL_MM);
}

function sawingLines(part: Part, sawing: Sawing): string[] {
  const wording = printedLengthWords(part.rule);
  const order = cutOrder(part, sawing, wording).map((step, i) => `${i + 1}. ${step}`);
  const cautions = sawCautions(part, sawing, wording).map(signalled);
  return [...order, ...cautions].map(sentence);
}
