import { type Box, boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { Sheet } from '../../tiling/layout.ts';
import { toleranceText, unitWord } from '../drawing/dimensions.ts';
import { type Page, polyline, type Stroke, type Words, words } from '../drawing/drawing.ts';
import { partView } from '../drawing/part-view.ts';
import { CAP_HEIGHT, LINE_SPACING, textWidth, truncateToWidth } from '../drawing/text-width.ts';
import { placeNear } from '../labels/free-space.ts';
import { seamLabels } from '../sheets/register-marks.ts';
import { scaleBar } from '../sheets/scale-bars.ts';
import type { LabelledSheet, SheetContext } from '../sheets/sheet-context.ts';
import { composeSheet, spaceBeside } from '../sheets/sheet-page.ts';
import { titleBlock } from '../sheets/title-block.ts';
import { BOX_MM, TURNED_MM, TYPE_MM, turnedStation } from './stick-labels.ts';
import type { LaidLabel, LaidStoryStick, PlacedRow } from './stick-layout.ts';
import { ROW_MM, rowLabelsOn, rowOutline, rowRangeOnSheet } from './stick-layout.ts';
import { stickPicture } from './stick-picture.ts';

const BAND_TYPE_MM = 3;
const HEAD_MM = 2.2;
const ARROW_MM = 9;

/** One sheet of a story stick at true size. */
export function storyStickPage(stick: LaidStoryStick, sheet: Sheet): Page {
  const labelled = stickSheet(stick, sheet);
  const { area } = labelled.space;
  const rows = stick.placed.flatMap((placed) => drawRow(stick, labelled, placed));
  const picture = stickPicture(stick);
  const isFirst = sheet === stick.layout.sheets[0];
  const corner = point(area.right - picture.width, area.bottom);
  return composeSheet(labelled, rows, [
    ...seamLabels(labelled),
    ...(titleBlock(labelled) ?? []),
    ...(scaleBar(labelled, 'across', { x: area.left, y: area.bottom }) ?? []),
    ...((isFirst && placeNear(labelled.space, corner, picture)) || []),
  ]);
}

function stickSheet({ part, layout, placed }: LaidStoryStick, sheet: Sheet): LabelledSheet {
  const context: SheetContext = {
    ...partView({ ...part, name: `Story stick: ${part.name}` }, sheet.toSheet),
    layout,
    sheet,
    dimensions: { stations: [], landmarks: [], joints: [], foldTabs: [] },
    lines: [],
  };
  const rows = placed.map(({ row, top, bottom }) =>
    inflate(boundsOf([point(row.from, bottom), point(row.to, top)].map(context.at)), 1),
  );
  const space = { ...spaceBeside(context, rows), anchors: [], lines: [], crossable: new Set<Box>() };
  return { ...context, space, stationAnchors: [], jointAnchors: [] };
}

type RowFrame = ReturnType<typeof rowFrame>;

const rowFrame = (view: SheetContext, { edge, out }: PlacedRow) => ({
  /** Of a station, and so far from the working edge into the row, mm. */
  at: (station: number, down: number): Point => view.at(point(station, edge - out * down)),
  baseline: (from: number, to: number): number => (out > 0 ? to : from),
  flipped: out < 0,
});

function drawRow(stick: LaidStoryStick, view: SheetContext, placed: PlacedRow): (Stroke | Words)[] {
  const { row } = placed;
  const frame = rowFrame(view, placed);
  const { at } = frame;
  const [first, ...others] = rowOutline(placed).map(({ from, to }) => [view.at(from), view.at(to)]);
  const labels = rowLabelsOn(stick, placed, view.sheet) ?? [];
  return [
    polyline('cut', first ?? []),
    ...others.map((side) => polyline('rule', side)),
    ...row.ticks.map(({ station, what }) =>
      polyline(what === 'station' ? 'rule' : 'mark', [at(station, 0), at(station, ROW_MM.tick)]),
    ),
    ...labels.flatMap((label) => [
      polyline('station', [at(label.tick.station, ROW_MM.tick), at(label.middle, ROW_MM.lead)]),
      ...(stick.style.turned ? turnedLabel(placed, label, frame) : flatLabel(label, frame)),
    ]),
    ...rowBand(stick, view, placed, frame),
  ];
}

function flatLabel({ what, station, offset, middle }: LaidLabel, frame: RowFrame) {
  const half = BOX_MM.width / 2;
  const boxTop = ROW_MM.flatWords + ROW_MM.boxGap;
  const line = (text: string, type: number, from: number): Words =>
    words(text, frame.at(middle, frame.baseline(from, from + type * CAP_HEIGHT)), type, 'middle');
  return [
    ...(what === '' ? [] : [line(what, TYPE_MM.what, ROW_MM.lead + 1.1)]),
    line(station, TYPE_MM.station, ROW_MM.lead + 4.5),
    line(offset, TYPE_MM.offset, ROW_MM.flatWords - 0.6 - TYPE_MM.offset * CAP_HEIGHT),
    readingBox(frame, middle - half, boxTop, middle + half, boxTop + BOX_MM.height),
  ];
}

function turnedLabel({ top, bottom }: PlacedRow, label: LaidLabel, frame: RowFrame) {
  const { middle } = label;
  const boxBottom = top - bottom - ROW_MM.band;
  const boxTop = boxBottom - ROW_MM.turnedBox;
  const [near, far] = frame.flipped ? (['start', 'end'] as const) : (['end', 'start'] as const);
  const upright = (text: string, type: number, down: number, anchor: 'start' | 'end'): Words =>
    words(text, frame.at(middle + type * 0.3, down), type, anchor, Math.PI / 2);
  return [
    upright(turnedStation(label), TYPE_MM.station, ROW_MM.lead + 0.6, near),
    upright(label.offset, TYPE_MM.offset, boxTop - ROW_MM.boxGap, far),
    readingBox(frame, middle - TURNED_MM / 2 + 0.4, boxTop, middle + TURNED_MM / 2 - 0.4, boxBottom),
  ];
}

const readingBox = ({ at }: RowFrame, left: number, top: number, right: number, bottom: number): Stroke =>
  polyline('station', [at(left, top), at(right, top), at(right, bottom), at(left, bottom), at(left, top)]);

function rowBand(
  stick: LaidStoryStick,
  { sheet, layout }: SheetContext,
  { row, top, bottom }: PlacedRow,
  frame: RowFrame,
): (Stroke | Words)[] {
  const [low, high] = rowRangeOnSheet(sheet, row);
  const hasStart = low <= 0 && high > 0;
  const { rule, name } = stick.part;
  const which = `, ${row.edge} · code ${layout.code}`;
  const depth = (line: 0 | 1): number => top - bottom - ROW_MM.band + 2 + line * BAND_TYPE_MM * LINE_SPACING;
  const roomFrom = (left: number): number => high - left - 2;
  // A long name gives way, never which edge it is.
  const said = (before: string, left: number): string => {
    const room = roomFrom(left) - textWidth(before + which, BAND_TYPE_MM);
    return before + truncateToWidth(name, BAND_TYPE_MM, room) + which;
  };
  const line = (text: string, left: number, row: 0 | 1): Words[] => {
    const kept = truncateToWidth(text, BAND_TYPE_MM, roomFrom(left));
    if (textWidth(kept, BAND_TYPE_MM) > roomFrom(left)) return [];
    const down = frame.baseline(depth(row), depth(row) + BAND_TYPE_MM * CAP_HEIGHT);
    return [words(kept, frame.at(left, down), BAND_TYPE_MM)];
  };
  // Read from above: the first line is the farther from the working edge where that lies below.
  const [first, second] = frame.flipped ? ([1, 0] as const) : ([0, 1] as const);
  const [before, left] = hasStart ? ['station 0 · ', ARROW_MM + 2] : ['', low + 2];
  const howToRead = `offsets square from the working edge, ${unitWord(rule)} · tolerance ${toleranceText(stick.tolerance, rule)} · boxes: your readings`;
  return [
    ...(hasStart ? startArrow(frame, depth(first) + (BAND_TYPE_MM * CAP_HEIGHT) / 2) : []),
    ...line(said(before, left), left, first),
    ...line(howToRead, low + 2, second),
  ];
}

function startArrow({ at }: RowFrame, down: number): Stroke[] {
  const tip = at(0.4, down);
  const barb = (side: 1 | -1): Point => at(HEAD_MM, down + (side * HEAD_MM) / 2);
  return [polyline('mark', [at(ARROW_MM, down), tip]), polyline('mark', [barb(1), tip, barb(-1)])];
}
