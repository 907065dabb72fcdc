import type { Affine } from '../curves/geometry/affine.ts';
import type { Box } from '../curves/geometry/bounds.ts';
import type { Point } from '../curves/geometry/point.ts';
import type { Margins } from './paper/margins.ts';
import type { Orientation, Paper } from './paper/paper-sizes.ts';
import type { PrinterScale, PrinterStretch } from './paper/printer-scale.ts';

/** A part laid over sheets. Plain data; all that the writers need to draw the pages. */
export interface Layout {
  /** The size of every sheet; a page off a roll may be shorter. */
  readonly paper: Paper;
  /** Whether the paper stands upright or lies on its side. */
  readonly orientation: Orientation;
  /** How far the part is turned on the paper, counter-clockwise, degrees. */
  readonly turnDeg: number;
  /** Of the paper as it stands upright, mm. */
  readonly margin: Margins;
  /** Corrected on every sheet; absent for a printer that prints true. */
  readonly printer?: PrinterScale;
  /** What neighboring sheets share, mm. */
  readonly overlap: number;
  /** Of the grid; sheets with nothing on them are not printed. */
  readonly rows: number;
  /** Of the grid. */
  readonly columns: number;
  /** Row by row from the top, left to right, as they are printed and taped. */
  readonly sheets: readonly [Sheet, ...Sheet[]];
  /** How many sheets upright paper takes with the part as it lies, in the middle of its grid. */
  readonly plainSheets: number;
  /** No layout of the finished line on this paper takes fewer sheets, at any turn and shift. */
  readonly lowerBound: number;
  /** Lettered crosses near the outer corners of the pattern, to measure its diagonals by. */
  readonly crosses: readonly CheckCross[];
  /** Distances to measure on the taped pattern before anything is cut. */
  readonly checks: readonly CheckDistance[];
  /** The part's mirror image, for the other one of a pair. */
  readonly mirrored?: true;
  /** Tells sheets of different jobs or layouts apart: six letters and digits. */
  readonly code: string;
}

/** One printed sheet. Rows are numbered from the top, columns lettered from the left. */
export interface Sheet {
  readonly name: string;
  readonly row: number;
  readonly column: number;
  /** The sheet's width and height as the printer's scale makes them, true mm, like all else here. */
  readonly size: { readonly width: number; readonly height: number };
  readonly stretch: PrinterStretch;
  /** Part mm → mm on this sheet, from its lower left corner, y up. */
  readonly toSheet: Affine;
  /** What the sheet shows: the paper inside its margins, mm on the sheet. */
  readonly window: Box;
  /** What stays in sight once all is taped: the window up to the trim lines, mm on the sheet. */
  readonly cell: Box;
  /** The seams, each with the name of the sheet beyond it; none where no sheet is printed. */
  readonly neighbours: Neighbours;
  /** Centres of the register marks, mm on the part; the neighbour has the same. */
  readonly marks: readonly RegisterMark[];
}

export interface Neighbours {
  readonly left?: string;
  readonly right?: string;
  readonly above?: string;
  readonly below?: string;
}

export interface RegisterMark {
  readonly at: Point;
  readonly sheets: readonly [string, string];
}

export interface CheckCross {
  readonly letter: string;
  readonly at: Point;
  readonly sheet: string;
}

/** A distance to measure on the taped-up pattern. */
export interface CheckDistance {
  readonly label: string;
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
}
