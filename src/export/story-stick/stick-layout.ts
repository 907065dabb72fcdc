import { IDENTITY } from '../../curves/geometry/affine.ts';
import { isOnBase, type StickRow } from '../../part/derived/story-stick.ts';
import type { Part } from '../../part/part.ts';
import { MIN_WINDOW_MM, type SheetFrame, sheetFrame } from '../../tiling/grid/grid.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { marginSides } from '../../tiling/paper/margins.ts';
import { windowOf } from '../../tiling/paper/page-frame.ts';
import type { Orientation } from '../../tiling/paper/paper-sizes.ts';
import { patternCode } from '../../tiling/pattern-code.ts';
import { DEFAULT_MAX_SHEETS, type LayOutOptions } from '../../tiling/tile.ts';
import { Fault } from '../../units/fault.ts';
import { cutRow, type LaidLabel, layLabels, type Stretch } from './cut-rows.ts';
import {
  FIGURES_MM,
  LABEL_STEPS,
  labelDepths,
  labelledTicks,
  type StickLabelStyle,
  stickLabel,
  turnedLength,
} from './stick-labels.ts';

/** The rows of a part to glue on story sticks, as measured along the reference line or along chords. */
export interface StoryStick {
  /** Whose edges are read. */
  readonly part: Part;
  /** The line that the stick is laid on: the job’s reference line, or each edge’s own chord. */
  readonly from: 'reference' | 'chord';
  /** A row to each edge that is read. */
  readonly rows: readonly StickRow[];
  /** How far off a reading may be and still count as on the line, mm. */
  readonly tolerance: number;
}

/** A story stick in rows that fit across the paper, one below the other. */
export interface LaidStoryStick extends StoryStick {
  readonly layout: Layout;
  readonly style: StickLabelStyle;
  readonly rowHeight: number;
  readonly placed: readonly PlacedRow[];
}

/** What one edge reads, in pieces to join. */
export interface PlacedRow {
  readonly row: StickRow;
  /** Whether offsets are measured up from the working edge (1) or down from it (−1). */
  readonly out: 1 | -1;
  readonly pieces: readonly StickPiece[];
}

/** A row of the paper: stations grow along it, and its working edge is flush with the edge of the stick. */
export interface StickPiece extends Stretch {
  /** Counts all rows of the stick, from 1. */
  readonly number: number;
  readonly isLast: boolean;
  /** Which of the sheets has it. */
  readonly sheet: number;
  /** Where its first station is on the sheet, and its upper side, mm. */
  readonly left: number;
  readonly top: number;
  readonly labels: readonly LaidLabel[];
}

/** Depths on a row whose labels are turned, from the working edge, mm. */
export const ROW_MM = { turnedTick: 6, lead: 10, turnedBox: 18, end: 1.2 } as const;
const ROW_GAP_MM = 2;
/** A row ends this far from a tick, mm; farther where the labels need the room. */
const CLEAR_MM = [8, 25, 45];
/** Labels keep clear of the register marks at the ends of a row, mm. */
const SEAM_WHITE_MM = 4.5;
/** Beside the rows, mm: the names at their left ends, the tab for the next row at their right ends. */
const NAME_ROOM_MM = 12;
export const TAB_MM = 12;
/** Below the rows how to read the stick, mm. */
const FOOT_MM = 7;
/** The bar is 107 mm long with its white: on narrow paper it is below the title. */
const WIDE_MM = 190;
const NOTES_MM = 12.5;

/** The title and the bar at the top of the paper, mm. */
export const headHeight = (width: number): number => (width < WIDE_MM ? 30 : 14.5);

/** In the fullest style of labels that finds room, over the fewest sheets. */
export function layOutStoryStick(stick: StoryStick, options: Omit<LayOutOptions, 'turn'>): LaidStoryStick {
  if (stick.rows.length === 0)
    throw new Fault(
      'gauge.nothing-to-read',
      'this edge is the line that you measure from, so every offset is 0. Name another edge.',
    );
  const turned = [...LABEL_STEPS[stick.part.rule.unit], Number.POSITIVE_INFINITY];
  const styles = [
    ...FIGURES_MM.flatMap((figure) =>
      (['beside', 'below'] as const).map((shape): StickLabelStyle => ({ shape, figure, every: 1 })),
    ),
    ...turned.map((every): StickLabelStyle => ({ shape: 'turned', figure: FIGURES_MM[0], every })),
  ];
  for (const style of styles) {
    const laid = frames(options)
      .flatMap((frame) =>
        CLEAR_MM.flatMap((clear) => layOutOn(stick, { style, clear }, frame, options) ?? []),
      )
      .sort((a, b) => a.layout.sheets.length - b.layout.sheets.length || countPieces(a) - countPieces(b));
    const [best] = laid;
    if (best) return withinSheets(best, options);
  }
  throw new Fault(
    'gauge.no-room',
    'the landmarks are too close together for their labels. Use larger paper or read one edge at a time.',
    '--story-stick',
  );
}

/** The rows worth printing: an edge that lies on the line is left out. */
export const worthReading = (rows: readonly StickRow[], { rule }: Part): readonly StickRow[] =>
  rows.filter((row) => !isOnBase(row, rule));

const countPieces = ({ placed }: LaidStoryStick): number =>
  placed.reduce((sum, { pieces }) => sum + pieces.length, 0);

function frames(options: Omit<LayOutOptions, 'turn'>): SheetFrame[] {
  const ways: Orientation[] = options.paper.roll ? ['lying'] : ['lying', 'upright'];
  return ways.map((orientation) => sheetFrame(options, orientation));
}

function withinSheets(
  stick: LaidStoryStick,
  { maxSheets = DEFAULT_MAX_SHEETS }: Omit<LayOutOptions, 'turn'>,
) {
  const count = stick.layout.sheets.length;
  if (count <= maxSheets) return stick;
  throw new Fault(
    'layout.too-many-sheets',
    `the story stick needs ${count} sheets, but the limit is ${maxSheets}. Allow ${count} sheets, or use larger paper.`,
    '--max-sheets',
  );
}

function layOutOn(
  stick: StoryStick,
  { style, clear }: { readonly style: StickLabelStyle; readonly clear: number },
  frame: SheetFrame,
  options: Omit<LayOutOptions, 'turn'>,
): LaidStoryStick | undefined {
  const { part, rows } = stick;
  const { width, height } = windowOf(frame);
  const rowDepth = rowHeight(stick, style);
  const above = headHeight(width) + NOTES_MM;
  const perSheet = Math.floor((height - above - FOOT_MM + ROW_GAP_MM) / (rowDepth + ROW_GAP_MM));
  if (perSheet < 1) return undefined;
  let count = 0;
  const placed: PlacedRow[] = [];
  for (const row of rows) {
    const out = row.ticks.some(({ offset }) => offset > 0) ? 1 : -1;
    const stretches = cutRow(row, width - NAME_ROOM_MM - TAB_MM, clear);
    const pieces: StickPiece[] = [];
    for (const [i, stretch] of stretches.entries()) {
      const isLast = i === stretches.length - 1;
      const labels = labelledTicks(row, style)
        .filter(({ station }) => station >= stretch.from && (station < stretch.to || isLast))
        .map((tick) => stickLabel(tick, part, out));
      const room = {
        from: i === 0 ? stretch.from : stretch.from + SEAM_WHITE_MM,
        to: isLast ? stretch.to : stretch.to - SEAM_WHITE_MM,
      };
      const laid = layLabels(labels, room, style);
      if (!laid) return undefined;
      const down = count % perSheet;
      pieces.push({
        ...stretch,
        isLast,
        labels: laid,
        number: count + 1,
        sheet: Math.floor(count / perSheet),
        left: frame.margin.left + NAME_ROOM_MM,
        top: frame.size.height - frame.margin.top - above - down * (rowDepth + ROW_GAP_MM),
      });
      count++;
    }
    placed.push({ row, out, pieces });
  }
  return { ...stick, style, rowHeight: rowDepth, placed, layout: stickLayout(stick, placed, frame, options) };
}

const rowHeight = ({ rows, part }: StoryStick, style: StickLabelStyle): number => {
  if (style.shape !== 'turned') return labelDepths(style).end;
  const labels = rows.flatMap((row) => labelledTicks(row, style).map((tick) => stickLabel(tick, part, 1)));
  return ROW_MM.lead + Math.max(0, ...labels.map(turnedLength)) + ROW_MM.turnedBox + ROW_MM.end + 2;
};

function stickLayout(
  { part, from }: StoryStick,
  placed: readonly PlacedRow[],
  frame: SheetFrame,
  { paper, margin, printer, overlap }: Omit<LayOutOptions, 'turn'>,
): Layout {
  const pieces = placed.flatMap((row) => row.pieces);
  const size = paper.roll ? { ...frame.size, width: rollLength(frame, pieces) } : frame.size;
  const { width, height } = windowOf({ ...frame, size });
  const window = {
    left: frame.margin.left,
    right: frame.margin.left + width,
    bottom: frame.margin.bottom,
    top: frame.margin.bottom + height,
  };
  const count = Math.max(...pieces.map(({ sheet }) => sheet)) + 1;
  const sheets = Array.from(
    { length: count },
    (_, i): Sheet => ({
      name: `${i + 1}`,
      row: i,
      column: 0,
      size,
      stretch: frame.stretch,
      toSheet: IDENTITY,
      window,
      cell: window,
      neighbours: {},
      marks: [],
    }),
  );
  return {
    paper,
    orientation: frame.orientation,
    turnDeg: 0,
    margin: marginSides(margin),
    ...(printer && { printer }),
    overlap,
    rows: count,
    columns: 1,
    sheets: sheets as [Sheet, ...Sheet[]],
    plainSheets: count,
    lowerBound: 1,
    crosses: [],
    checks: [],
    code: patternCode([part.name, from, placed, sheets]),
  };
}

/** A page off a roll is cut to the length that its rows need. */
const rollLength = ({ margin }: SheetFrame, pieces: readonly StickPiece[]): number =>
  margin.left +
  margin.right +
  Math.max(MIN_WINDOW_MM, NAME_ROOM_MM + TAB_MM + Math.max(...pieces.map(({ from, to }) => to - from)));
