import { point } from '../../curves/geometry/point.ts';
import { type StandingView, standingViews } from '../../part/ends/standing-views.ts';
import type { Part } from '../../part/part.ts';
import { showAngle } from '../../units/number-format.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { printedLength } from './dimensions.ts';
import { type Item, polyline, tick, words } from './drawing.ts';
import { CAP_HEIGHT, LINE_SPACING, truncateToWidth } from './text-width.ts';

/** Between the two views, and outside them for the angles, parts of the type size. */
const SIDE_WHITE = 3.6;
const OVER_TOP = 0.6;
/** From the floor to the line of a distance and from there to its figure, parts of the type size. */
const UNDER_FLOOR = 0.8;
const UNDER_DISTANCE = 0.75;
const FIGURE_SHARE = 1.15;
const FRACTION_SHARE = 1.4;
const DISTANCE_TICK_MM = 1;
/** How far down the leg its angle is written. */
const ANGLE_HEIGHT = 0.42;
/** No view is drawn larger than this: paper mm to a part mm. */
const MAX_SCALE = 0.5;

/** Drawn from its left top corner, mm. */
export interface StandingDrawing {
  readonly width: number;
  readonly height: number;
  readonly draw: (left: number, top: number) => Item[];
}

/** The leg on the floor, in `width` by `height` mm at most; undefined for a part that does not stand out of plumb. */
export function standingDrawing(
  part: Part,
  room: { readonly width: number; readonly height: number },
  size: number,
): StandingDrawing | undefined {
  const views = standingViews(part);
  const [first] = views;
  if (!first) return undefined;
  const each = room.width / views.length;
  const line = size * LINE_SPACING;
  const head = 2 * line + OVER_TOP * size;
  const foot = (UNDER_FLOOR + UNDER_DISTANCE + LINE_SPACING) * size;
  const widest = Math.max(...views.map(viewWidth));
  const most = Math.min(each - 2 * SIDE_WHITE * size, room.height) / widest;
  const k = Math.min(MAX_SCALE, most, (room.height - head - foot) / first.height);
  const height = head + k * first.height + foot;
  const draw = (left: number, top: number): Item[] => {
    const floor = top - head - k * first.height;
    return [
      polyline('sheet-cut', [point(left, floor), point(left + room.width, floor)]),
      words('floor', point(left + room.width, floor + 0.3 * size), size, 'end'),
      ...views.flatMap((view, i) =>
        viewItems(part, view, { k, floor, top, size, each, left: left + i * each }),
      ),
    ];
  };
  return { width: room.width, height, draw };
}

/** With the plumb line, which may be outside the leg. */
const spanOf = ({ outline, along }: StandingView): readonly [left: number, right: number] => {
  const xs = [...outline, ...along].map(({ x }) => x);
  return [Math.min(...xs), Math.max(...xs)];
};

function viewWidth(view: StandingView): number {
  const [left, right] = spanOf(view);
  return right - left;
}

interface Place {
  readonly k: number;
  readonly floor: number;
  readonly top: number;
  readonly size: number;
  readonly left: number;
  readonly each: number;
}

function viewItems({ rule }: Part, view: StandingView, place: Place): Item[] {
  const { k, floor, top, size, left, each } = place;
  const { outline, along, out, height, isDrawn } = view;
  const [from, to] = spanOf(view);
  const middle = left + each / 2;
  const at = (x: number, y: number) => point(middle + k * (x - (from + to) / 2), floor + k * y);
  const title = view.from === 'front' ? 'From the front' : 'From the side';
  const toward = `${towardName(view)} toward you`;
  const items: Item[] = [
    { ...words(title, point(middle, top - size), size, 'middle'), bold: true },
    words(
      truncateToWidth(typesetMeasures(toward), size, each),
      point(middle, top - size * (1 + LINE_SPACING)),
      size,
      'middle',
    ),
    polyline(
      'cut',
      outline.map(({ x, y }) => at(x, y)),
      true,
    ),
  ];
  if (!out) return items;
  const [footEnd, topEnd] = along;
  const isRight = footEnd.x >= (from + to) / 2;
  const y = height * ANGLE_HEIGHT;
  const low = floor - UNDER_FLOOR * size;
  const [plumbX, footX] = [at(topEnd.x, 0).x, at(footEnd.x, 0).x];
  const beside = at(isRight ? to : from, y);
  const angle = {
    ...words(showAngle(out.by), beside, size * 1.15, isRight ? 'start' : 'end'),
    bold: true,
  } as const;
  const figure = printedLength(out.distance, rule);
  const under = low - size * (CAP_HEIGHT * FIGURE_SHARE + UNDER_DISTANCE);
  return [
    ...items,
    ...(isDrawn
      ? []
      : [
          polyline(
            'chord',
            along.map((end) => at(end.x, end.y)),
          ),
        ]),
    polyline('fold', [point(plumbX, low - DISTANCE_TICK_MM), at(topEnd.x, height)]),
    { ...angle, at: point(beside.x + (isRight ? 1 : -1) * 0.3 * size, beside.y) },
    polyline('rule', [point(plumbX, low), point(footX, low)]),
    tick('rule', point(footX, low), 0, DISTANCE_TICK_MM),
    {
      ...words(figure, point((plumbX + footX) / 2, under), size * FIGURE_SHARE, 'middle'),
      fractions: size * FRACTION_SHARE,
    },
  ];
}

const towardName = ({ from, toward }: StandingView): string =>
  from === 'front' ? 'reference face' : `“${toward}”`;
