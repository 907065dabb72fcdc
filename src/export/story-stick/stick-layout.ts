import { point } from '../../curves/geometry/point.ts';
import { polygon } from '../../curves/geometry/transform.ts';
import { isOnBase, type StickRow } from '../../part/derived/story-stick.ts';
import type { Part } from '../../part/part.ts';
import { checkDistance } from '../../tiling/check-crosses.ts';
import type { LinesToTile } from '../../tiling/grid/lines-to-tile.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { type LayOutOptions, layOutLines } from '../../tiling/tile.ts';
import { itemAt } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { spreadLabels } from '../labels/spread-labels.ts';
import {
  BOX_MM,
  LABEL_STEPS,
  labelledTicks,
  type StickLabel,
  type StickLabelStyle,
  stickLabel,
  stickLabelWidth,
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

/** A story stick laid over sheets: station along x, each row below its working edge, mm. */
export interface LaidStoryStick extends StoryStick {
  readonly layout: Layout;
  readonly style: StickLabelStyle;
  readonly placed: readonly PlacedRow[];
}

export interface PlacedRow {
  readonly row: StickRow;
  readonly top: number;
  readonly bottom: number;
  /** Flush with the stick's edge: the row's top, or its bottom for a line that lies below. */
  readonly edge: number;
  readonly out: 1 | -1;
}

/** Depths on a row: to the ends of ticks and leads, of turned boxes, of the band at the back, of flat words. */
export const ROW_MM = { tick: 6, lead: 10, boxGap: 2, band: 11, turnedBox: 18, flatWords: 22.4 } as const;
const WORDS_MM = 12.6;
const ROW_GAP_MM = 8;
/** A register mark and its white take 13 mm: lines so near each other keep them out of a row. */
const GUARD_LINE_MM = 11;
/** A label keeps this far from the ends of its row and from where sheets are cut, mm. */
const CUT_WHITE_MM = 1.2;

/** The rows over the fewest sheets side by side, with the fullest labels that find room. */
export function layOutStoryStick(stick: StoryStick, options: Omit<LayOutOptions, 'turn'>): LaidStoryStick {
  if (stick.rows.length === 0)
    throw new Fault(
      'gauge.nothing-to-read',
      'this edge is the line that you measure from, so every offset is 0. Name another edge.',
    );
  const flat = layOutWithStyle(stick, { turned: false, every: 1 }, options);
  if (hasRoomForLabels(flat)) return flat;
  const turned = layOutWithStyle(stick, { turned: true, every: 1 }, options);
  const every = LABEL_STEPS[stick.part.rule.unit].find((step) =>
    hasRoomForLabels({ ...turned, style: { turned: true, every: step } }),
  );
  return { ...turned, style: { turned: true, every: every ?? Number.POSITIVE_INFINITY } };
}

/** The rows worth printing: an edge that lies on the line is left out. */
export const worthReading = (rows: readonly StickRow[], { rule }: Part): readonly StickRow[] =>
  rows.filter((row) => !isOnBase(row, rule));

function layOutWithStyle(stick: StoryStick, style: StickLabelStyle, options: Omit<LayOutOptions, 'turn'>) {
  const placed = placeRows(stick, style);
  const layout = layOutLines(stickLinesToTile(stick, placed), { ...options, turn: 0 });
  return { ...stick, style, placed, layout };
}

function placeRows({ rows, part }: StoryStick, style: StickLabelStyle): PlacedRow[] {
  let next = 0;
  return rows.map((row) => {
    const top = next;
    const labels = row.ticks.map((tick) => stickLabel(tick, part.rule));
    const bottom = top - rowHeight(labels, style);
    next = bottom - ROW_GAP_MM;
    const out = row.ticks.some(({ offset }) => offset > 0) ? 1 : -1;
    return { row, top, bottom, out, edge: out > 0 ? top : bottom };
  });
}

const rowHeight = (labels: readonly StickLabel[], { turned }: StickLabelStyle): number =>
  ROW_MM.band +
  ROW_MM.boxGap +
  (turned
    ? WORDS_MM - 2 + Math.max(...labels.map(turnedLength)) + ROW_MM.turnedBox
    : ROW_MM.flatWords + BOX_MM.height);

function stickLinesToTile({ part, from }: StoryStick, placed: readonly PlacedRow[]): LinesToTile {
  const outlines = placed.flatMap(rowOutline);
  const guards = placed.flatMap(({ row, top, bottom }) => {
    const count = Math.ceil((top - bottom) / GUARD_LINE_MM);
    return Array.from({ length: count - 1 }, (_, i) => {
      const y = top + ((bottom - top) * (i + 1)) / count;
      return { type: 'line', from: point(row.from, y), to: point(row.to, y) } as const;
    });
  });
  return {
    all: [...outlines, ...guards],
    finished: outlines,
    extraPoints: [],
    landmarks: placed.flatMap(({ row, edge }) => row.ticks.map(({ station }) => point(station, edge))),
    checks: placed.map(({ row, edge }) => {
      const [from, to] = [point(row.from, edge), point(row.to, edge)];
      return checkDistance(`${row.edge}, working edge, end to end`, from, to);
    }),
    identity: [part.name, from, placed],
  };
}

export function rowOutline({ row: { from, to }, top, bottom, edge }: PlacedRow) {
  const far = edge === top ? bottom : top;
  return polygon([point(from, edge), point(to, edge), point(to, far), point(from, far)]);
}

export function rowRangeOnSheet({ cell, toSheet }: Sheet, { from, to }: StickRow) {
  const shift = toSheet[4];
  return [Math.max(from, cell.left - shift), Math.min(to, cell.right - shift)] as const;
}

export interface LaidLabel extends StickLabel {
  readonly middle: number;
}

/** The labels on a sheet, and their middles where there is room for all. */
export function rowLabelsOn(
  { part, style }: Pick<LaidStoryStick, 'part' | 'style'>,
  { row, out }: PlacedRow,
  sheet: Sheet,
): LaidLabel[] | undefined {
  const [low, high] = rowRangeOnSheet(sheet, row);
  const isLast = high === row.to;
  const labels = labelledTicks(row, style)
    .filter(({ station }) => station >= low && (station < high || isLast))
    .map((tick) => stickLabel(tick, part.rule, out));
  const wished = labels.map((label) => ({ at: label.tick.station, width: stickLabelWidth(label, style) }));
  const middles = spreadLabels(wished, low + CUT_WHITE_MM, high - CUT_WHITE_MM);
  return middles && labels.map((label, i) => ({ ...label, middle: itemAt(middles, i) }));
}

const hasRoomForLabels = (stick: LaidStoryStick): boolean =>
  stick.layout.sheets.every((sheet) =>
    stick.placed.every((placed) => rowLabelsOn(stick, placed, sheet) !== undefined),
  );
