import type { Segment } from '../curves/piece.ts';
import type { Point } from '../curves/point.ts';

/**
 * A page to draw, before any file format: strokes and words at true size, mm from the page's lower
 * left corner, y up. Each writer (PDF, SVG, the screen) draws the same list into its own sink.
 */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

export type Item = Stroke | Words | Clip;

/** What a line means; the writers decide how it looks, by dashes and weight before colour. */
export type LineStyle =
  | 'cut' // the finished line: solid, boldest
  | 'saw' // the line to saw to: dashed
  | 'chord' // chord, centre lines: long dash and dot
  | 'trim' // where to cut the paper
  | 'register' // register marks
  | 'station' // station lines and ticks
  | 'mark' // apex, pins, frames, scale bars
  | 'grain';

export interface Stroke {
  readonly type: 'stroke';
  readonly style: LineStyle;
  /** Contiguous segments; `closed` joins the last to the first. */
  readonly path: readonly Segment[];
  readonly closed?: boolean;
  readonly filled?: boolean;
}

export interface Words {
  readonly type: 'words';
  readonly text: string;
  /** The baseline's anchor point. */
  readonly at: Point;
  /** Type size, mm. */
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Turned counter-clockwise, radians. */
  readonly turn?: number;
  /** Words wider than this break into lines below, mm. */
  readonly wrap?: number;
}

/** Items drawn only inside a rectangle: what lies on one sheet. */
export interface Clip {
  readonly type: 'clip';
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
  readonly items: readonly (Stroke | Words)[];
}
