import type { Box } from '../../curves/geometry/bounds.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { LineRole } from '../../part/part-lines.ts';
import type { PrinterStretch } from '../../tiling/paper/printer-scale.ts';
import { neighbors } from '../../units/checked.ts';

/** Strokes and words at true size, mm from the page's lower left corner, y up; each writer draws the same list. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

export type Item = Stroke | Words | Clip;

export type LineStyle =
  | 'cut' // the finished line
  | 'saw' // the saw line
  | 'sheet-cut' // the finished line on a sheet, heavy enough for a reader who stands
  | 'sheet-saw' // the saw line on a sheet
  | 'form-face' // the face of a form, which plies are bent on
  | 'parallel' // at a distance asked for
  | 'chord' // straight from end to end of a line pattern
  | 'centre' // to flip a half pattern on
  | 'trim' // where to cut the paper, or where the next sheet's edge lies
  | 'register' // register marks and check crosses
  | 'station' // station lines
  | 'mark' // apex, pins, joins
  | 'joint' // mortises, slots and holes
  | 'behind' // the same on the other face
  | 'axis' // centre lines, and crosses to drill by
  | 'fold' // where the paper is folded over an edge
  | 'lead' // from a label to what it names
  | 'rule' // scale bars, frames, the grain arrow
  | 'map'; // the sheets on the assembly map

export const LINE_STYLES: Readonly<Record<LineRole, LineStyle>> = {
  finished: 'cut',
  saw: 'saw',
  chord: 'chord',
  centre: 'centre',
  back: 'fold',
};

export interface LineAppearance {
  readonly width: number;
  /** Lengths drawn and left out in turn, mm; none: solid. */
  readonly dash?: readonly number[];
  readonly colour: string;
}

const BLACK = '#000000';
/** Our one colour: what the hand moves or sets. */
const ACCENT_COLOR = '#0f5c5c';

/** Lines differ by dash and weight first, so that a printer without colour loses nothing. */
export const LINE_APPEARANCES: Readonly<Record<LineStyle, LineAppearance>> = {
  cut: { width: 0.35, colour: BLACK },
  saw: { width: 0.25, dash: [4, 2], colour: BLACK },
  'sheet-cut': { width: 0.55, colour: BLACK },
  'sheet-saw': { width: 0.4, dash: [5, 2.5], colour: BLACK },
  'form-face': { width: 0.9, colour: BLACK },
  parallel: { width: 0.25, dash: [1.5, 1.5], colour: ACCENT_COLOR },
  chord: { width: 0.13, dash: [8, 1.5, 1, 1.5], colour: BLACK },
  centre: { width: 0.25, dash: [10, 1.5, 2, 1.5], colour: ACCENT_COLOR },
  trim: { width: 0.35, dash: [0.5, 1.2], colour: BLACK },
  register: { width: 0.13, colour: BLACK },
  station: { width: 0.18, colour: BLACK },
  mark: { width: 0.25, colour: ACCENT_COLOR },
  joint: { width: 0.3, colour: BLACK },
  behind: { width: 0.25, dash: [2.4, 1.2], colour: BLACK },
  axis: { width: 0.15, dash: [6, 1.2, 1, 1.2], colour: BLACK },
  fold: { width: 0.2, dash: [1.6, 1.2], colour: ACCENT_COLOR },
  lead: { width: 0.1, colour: ACCENT_COLOR },
  rule: { width: 0.18, colour: BLACK },
  map: { width: 0.13, colour: BLACK },
};

/** What is kept apart in a full-size drawing, so that a machine can be given some of it. */
export type LayerName = 'board' | 'cut' | 'saw' | 'parallel' | 'joints' | 'marks' | 'text';

interface OnLayer {
  readonly layer?: LayerName;
  readonly title?: string;
}

export interface Stroke extends OnLayer {
  readonly type: 'stroke';
  readonly style: LineStyle;
  readonly path: readonly Segment[];
  readonly closed?: boolean;
  readonly filled?: boolean;
}

export interface Words extends OnLayer {
  readonly type: 'words';
  readonly text: string;
  readonly at: Point;
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly bold?: true;
  /** Type size of the fractions among the words, mm; absent where it is the size of the words. */
  readonly fractions?: number;
  /** Turned counter-clockwise, radians. */
  readonly turn?: number;
}

export interface Clip extends Box {
  readonly type: 'clip';
  readonly items: readonly (Stroke | Words)[];
}

export interface Page {
  readonly name: string;
  readonly drawing: Drawing;
  /** How long the printer makes a millimetre of it; absent where it prints true. */
  readonly stretch?: PrinterStretch;
}

export const polyline = (style: LineStyle, points: readonly Point[], closed = false): Stroke => ({
  type: 'stroke',
  style,
  path: neighbors(points).map(([from, to]) => ({ type: 'line', from, to })),
  closed,
});

/** Counter-clockwise from the lower left. */
export const boxCorners = ({ left, right, bottom, top }: Box): Point[] => [
  point(left, bottom),
  point(right, bottom),
  point(right, top),
  point(left, top),
];

/** A stroke through a place, so far (mm) to both sides. */
export const tick = (style: LineStyle, { x, y }: Point, dx: number, dy: number): Stroke =>
  polyline(style, [point(x - dx, y - dy), point(x + dx, y + dy)]);

/** Two ticks across each other, so far (mm) to all sides. */
export const cross = (style: LineStyle, at: Point, reach: number): Stroke[] => [
  tick(style, at, reach, 0),
  tick(style, at, 0, reach),
];

/** A level or upright line with a tick across either end, so far (mm) to both sides. */
export function measuredLine(style: LineStyle, from: Point, to: Point, reach: number): Stroke[] {
  const [dx, dy] = from.y === to.y ? [0, reach] : [reach, 0];
  return [polyline(style, [from, to]), tick(style, from, dx, dy), tick(style, to, dx, dy)];
}

/** A full circle, its radius in mm. */
export const circle = (style: LineStyle, centre: Point, radius: number): Stroke => ({
  type: 'stroke',
  style,
  path: [{ type: 'arc', centre, radius, start: 0, sweep: 2 * Math.PI }],
  closed: true,
});

/** A text at a place, its size in mm. */
export const words = (
  text: string,
  at: Point,
  size: number,
  anchor: Words['anchor'] = 'start',
  turn = 0,
): Words => ({ type: 'words', text, at, size, anchor, ...(turn === 0 ? {} : { turn }) });
