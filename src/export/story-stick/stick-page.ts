import type { Box } from '../../curves/geometry/bounds.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { expectedJoinedLength } from '../../tiling/expected-error.ts';
import { REGISTER_REACH_MM } from '../../tiling/grid/seams.ts';
import type { Sheet } from '../../tiling/layout.ts';
import { NO_BREAK } from '../../units/typeset.ts';
import { printedLength, toleranceText, unitWord } from '../drawing/dimensions.ts';
import { circle, cross, type Item, type Page, polyline, type Words, words } from '../drawing/drawing.ts';
import { partView } from '../drawing/part-view.ts';
import { LINE_SPACING, truncateToWidth, wrapText } from '../drawing/text-width.ts';
import { scaleBar } from '../sheets/scale-bars.ts';
import type { LabelledSheet } from '../sheets/sheet-context.ts';
import { NOTE_MM, typedWords, typeSize } from '../sheets/sheet-type.ts';
import { titleBlock } from '../sheets/title-block.ts';
import type { LaidLabel } from './cut-rows.ts';
import {
  BOX_MM,
  LABEL_MM,
  labelDepths,
  offsetWidth,
  stationWidth,
  TURNED_MM,
  TURNED_TYPE_MM,
  turnedStation,
} from './stick-labels.ts';
import type { LaidStoryStick, PlacedRow, StickPiece } from './stick-layout.ts';
import { headHeight, ROW_MM, TAB_MM } from './stick-layout.ts';

const SMALL_MM = 3.4;
const REGISTER_RADIUS_MM = 2;
const REGISTER_ARM_MM = 3.5;
/** Shares of a row's depth at which its register marks are. */
const REGISTER_SHARES = [0.25, 0.75];

/** One sheet of a story stick at true size. */
export function storyStickPage(stick: LaidStoryStick, sheet: Sheet): Page {
  const { window, size } = sheet;
  const index = stick.layout.sheets.indexOf(sheet);
  const labelled = headSheet(stick, sheet);
  const { area } = labelled.space;
  const rows = stick.placed.flatMap((placed) =>
    placed.pieces
      .filter((piece) => piece.sheet === index)
      .flatMap((piece) => drawPiece(stick, placed, piece)),
  );
  const items: Item[] = [
    ...(scaleBar(labelled, 'across', point(area.right, area.top)) ?? []),
    ...(titleBlock(labelled) ?? []),
    ...noteLines(instructions(stick), window, window.top - headHeight(window.right - window.left) - SMALL_MM),
    ...noteLines([howToRead(stick)], window, window.bottom + NOTE_MM * 1.3),
    ...rows,
  ];
  return { name: sheet.name, drawing: { ...size, items }, stretch: sheet.stretch };
}

function headSheet({ part, layout }: LaidStoryStick, sheet: Sheet): LabelledSheet {
  const area: Box = {
    ...sheet.window,
    bottom: sheet.window.top - headHeight(sheet.window.right - sheet.window.left),
  };
  return {
    ...partView(part, sheet.toSheet),
    layout,
    sheet,
    dimensions: { stations: [], landmarks: [], joints: [], foldTabs: [] },
    lines: [],
    isInWood: () => false,
    space: { area, occupied: [], anchors: [], lines: [], crossable: new Set() },
    stationAnchors: [],
    jointAnchors: [],
  };
}

const noteLines = (texts: readonly string[], { left, right }: Box, top: number): Words[] =>
  texts
    .flatMap((text) => wrapText(text, SMALL_MM, right - left))
    .map((text, i) => words(text, point(left, top - i * SMALL_MM * LINE_SPACING), SMALL_MM));

function instructions({ placed, part, layout }: LaidStoryStick): string[] {
  const { rule } = part;
  const lengths = placed.map(({ row, pieces }) => {
    const length = row.to - row.from;
    const off = toleranceText(expectedJoinedLength(layout, length, pieces.length - 1), rule);
    return { edge: row.edge, text: `${printedLength(length, rule)} ${off}`.replaceAll(' ', NO_BREAK) };
  });
  const isOne = new Set(lengths.map(({ text }) => text)).size === 1;
  const all = isOne
    ? lengths.slice(0, 1).map(({ text }) => text)
    : lengths.map(({ edge, text }) => `${edge} ${text}`);
  const joined = placed.some(({ pieces }) => pieces.length > 1);
  const join = joined
    ? 'Cut out the rows. Lay each row on the tab of the row before, complete the register marks and tape.'
    : 'Cut out the row.';
  return [
    `Story stick. Print at 100% and measure the bar. ${join} From end to end: ${all.join(', ')}. Glue to a straight stick.`,
  ];
}

const howToRead = ({ from, part, tolerance }: LaidStoryStick): string =>
  `Lay the thick edge along ${from === 'chord' ? 'the straight line between the ends of the edge' : 'the reference line'}, toward the part. ` +
  `Measure each offset square to it and write it in the box. Lengths in ${unitWord(part.rule)}. Tolerance ${toleranceText(tolerance, part.rule)}.`;

type PieceFrame = ReturnType<typeof pieceFrame>;

/** Stations along a row, depths from its working edge; words are read from above on every row. */
const pieceFrame = ({ rowHeight }: LaidStoryStick, { out }: PlacedRow, { from, left, top }: StickPiece) => ({
  flipped: out < 0,
  x: (station: number): number => left + station - from,
  at: (station: number, depth: number): Point =>
    point(left + station - from, out > 0 ? top - depth : top - rowHeight + depth),
  /** Where a line of words has its base: its foot is the farther from the working edge only where that is above. */
  base: (depth: number, high: number): number => (out > 0 ? top - depth : top - rowHeight + depth - high),
});

function drawPiece(stick: LaidStoryStick, placed: PlacedRow, piece: StickPiece): Item[] {
  const frame = pieceFrame(stick, placed, piece);
  const { at } = frame;
  const { from, to, isLast, labels } = piece;
  const far = isLast ? to : to + TAB_MM;
  const depth = stick.rowHeight;
  const turned = stick.style.shape === 'turned';
  const ticks = placed.row.ticks.filter(({ station }) => station >= from && station <= to);
  const seam = (station: number): Item[] => [
    polyline('trim', [at(station, 0), at(station, depth)]),
    ...REGISTER_SHARES.flatMap((share) => registerMark(at(station, share * depth))),
  ];
  return [
    polyline('sheet-cut', [at(from, 0), at(far, 0)]),
    polyline('rule', [at(from, depth), at(far, depth)]),
    ...(from === placed.row.from ? [polyline('rule', [at(from, 0), at(from, depth)])] : seam(from)),
    polyline('rule', [at(far, 0), at(far, depth)]),
    ...(isLast ? [] : seam(to)),
    ...ticks.map(({ station, what }) =>
      polyline(what === 'station' ? 'rule' : 'mark', [
        at(station, 0),
        at(station, turned ? ROW_MM.turnedTick : labelDepths(stick.style).station),
      ]),
    ),
    ...labels.flatMap((label) =>
      turned ? turnedLabel(stick, label, frame) : flatLabel(stick, label, frame),
    ),
    ...pieceNames(stick, placed, piece),
  ];
}

function registerMark(centre: Point): Item[] {
  return [...cross('register', centre, REGISTER_ARM_MM), circle('register', centre, REGISTER_RADIUS_MM)];
}

/** Outside the row at its left end what it is, on its tab the row that is laid there. */
function pieceNames({ rowHeight }: LaidStoryStick, { row }: PlacedRow, piece: StickPiece): Words[] {
  const middle = piece.top - rowHeight / 2;
  const turned = (text: string, x: number): Words =>
    words(truncateToWidth(text, SMALL_MM, rowHeight), point(x, middle), SMALL_MM, 'middle', Math.PI / 2);
  const name = { ...turned(`row ${piece.number}`, piece.left - REGISTER_REACH_MM), bold: true as const };
  const tab = piece.left + piece.to - piece.from + TAB_MM - 2.5;
  return [
    turned(row.edge, piece.left - REGISTER_REACH_MM - SMALL_MM * LINE_SPACING),
    name,
    ...(piece.isLast ? [] : [turned(`row ${piece.number + 1}`, tab)]),
  ];
}

function flatLabel({ style }: LaidStoryStick, label: LaidLabel, frame: PieceFrame): Item[] {
  const { what, station, offset, left } = label;
  const { figure } = style;
  const depths = labelDepths(style);
  const line = (text: string, depth: number, bold: boolean): Words =>
    typedWords({ text, size: typeSize(figure), bold }, point(frame.x(left), frame.base(depth, figure)));
  const boxLeft = style.shape === 'beside' ? left + offsetWidth(label, style) + LABEL_MM.box : left;
  const { boxTop } = depths;
  // The letters of a name that hang stay clear of the box below.
  const nameAt = point(
    frame.x(left + stationWidth(label, style) + LABEL_MM.gap),
    frame.base(depths.station, figure) + 1,
  );
  return [
    line(station, depths.station, false),
    ...(what === '' ? [] : [words(what, nameAt, NOTE_MM)]),
    line(offset, depths.offset, true),
    readingBox(frame, boxLeft, boxTop, boxLeft + BOX_MM.width, boxTop + BOX_MM.height),
  ];
}

function turnedLabel({ rowHeight }: LaidStoryStick, label: LaidLabel, frame: PieceFrame): Item[] {
  const middle = label.left + label.width / 2;
  const boxBottom = rowHeight - ROW_MM.end;
  const boxTop = boxBottom - ROW_MM.turnedBox;
  const [near, far] = frame.flipped ? (['start', 'end'] as const) : (['end', 'start'] as const);
  const upright = (text: string, size: number, depth: number, anchor: 'start' | 'end'): Words => {
    const { x, y } = frame.at(middle, depth);
    return typedWords({ text, size }, point(x + size * 0.3, y), anchor, Math.PI / 2);
  };
  return [
    polyline('station', [frame.at(label.tick.station, ROW_MM.turnedTick), frame.at(middle, ROW_MM.lead)]),
    upright(turnedStation(label), TURNED_TYPE_MM.station, ROW_MM.lead + 0.6, near),
    upright(label.offset, TURNED_TYPE_MM.offset, boxTop - 1.5, far),
    readingBox(frame, middle - TURNED_MM / 2 + 0.4, boxTop, middle + TURNED_MM / 2 - 0.4, boxBottom),
  ];
}

const readingBox = ({ at }: PieceFrame, left: number, top: number, right: number, bottom: number): Item =>
  polyline('station', [at(left, top), at(right, top), at(right, bottom), at(left, bottom)], true);
