import { type Box, inflate, squareAround } from '../../curves/geometry/bounds.ts';
import type { Chord } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { point } from '../../curves/geometry/point.ts';
import { type LineRole, partLines } from '../../part/part-lines.ts';
import { CROSS_REACH_MM } from '../../tiling/check-crosses.ts';
import { REGISTER_REACH_MM } from '../../tiling/grid/seams.ts';
import type { Sheet } from '../../tiling/layout.ts';
import { type Item, LINE_STYLES, type Page, type Stroke } from '../drawing/drawing.ts';
import { boxesAlongLines, type OccupiedSpace } from '../labels/free-space.ts';
import type { LabelContext } from '../labels/place-labels.ts';
import { continuationArrows } from './continuation-arrows.ts';
import { foldTabChords, foldTabLabels, foldTabStrokes } from './draw-fold-tabs.ts';
import { faceMark } from './face-mark.ts';
import { grainArrow } from './grain-arrow.ts';
import { jointAnchors, jointChordsOnSheet, jointLabels, jointStrokes } from './joint-marks.ts';
import { legend } from './legend.ts';
import { checkCrossMarks, registerMarks, seamLabels, trimLines } from './register-marks.ts';
import { scaleBars } from './scale-bars.ts';
import {
  onSheet,
  type Pattern,
  pathOnSheet,
  SHEET_CHORD_MM,
  type SheetContext,
  sheetContext,
} from './sheet-context.ts';
import {
  landmarkLabels,
  landmarkSigns,
  stationAnchors,
  stationLabels,
  stationLines,
} from './station-lines.ts';
import { titleBlock } from './title-block.ts';

/** White between the line to cut and whatever stands near it, mm. */
const CUT_LINE_WHITE_MM = 1.5;

/** White between furniture and the trim lines, mm. */
const INSET_MM = 3;

/** White beside a station line and the chord, mm. */
const STATION_WHITE_MM = 0.5;

/** One sheet of the pattern at true size. */
export function sheetPage(pattern: Pattern, sheet: Sheet): Page {
  const view = sheetContext(pattern, sheet);
  const stations = stationLines(view);
  const items: Item[] = [
    {
      type: 'clip',
      ...sheet.window,
      items: [
        ...stations,
        ...foldTabStrokes(view),
        ...partLinesOnSheet(view),
        ...jointStrokes(view),
        ...landmarkSigns(view),
      ],
    },
    ...trimLines(sheet),
    ...registerMarks(view),
    ...checkCrossMarks(view),
    ...annotate(view, stations),
  ];
  const { width, height } = sheet.size;
  return { name: sheet.name, drawing: { width, height, items }, stretch: sheet.stretch };
}

/** The lines of the part. Each is drawn whole, so that its dashes agree from sheet to sheet. */
const partLinesOnSheet = (view: SheetContext): Stroke[] =>
  linesOnSheet(view, ['chord', 'centre', 'saw', 'finished']);

const chordAndCentreLine = (view: SheetContext): Chord[] =>
  straightChords(linesOnSheet(view, ['chord', 'centre']));

const linesOnSheet = (view: SheetContext, roles: readonly LineRole[]): Stroke[] =>
  partLines(view.part, roles).map(({ role, path, closed }) => ({
    type: 'stroke',
    style: LINE_STYLES[role],
    path: pathOnSheet(view, role === 'centre' ? extendLine(path) : path),
    ...(closed && { closed }),
  }));

/** A line to flip on runs this far past the part, to be laid on a line squared across the wood, mm. */
const CENTRE_PAST_MM = 12;

const extendLine = (path: readonly Segment[]): Segment[] =>
  path.flatMap((line) =>
    line.type === 'line'
      ? {
          ...line,
          from: point(line.from.x, line.from.y - CENTRE_PAST_MM),
          to: point(line.to.x, line.to.y + CENTRE_PAST_MM),
        }
      : [],
  );

/**
 * Names, bars and labels, each where it covers nothing. The sheet's name and its bars look best when
 * the labels of the line have their places first; on a crowded sheet they go before all else.
 */
function annotate(view: SheetContext, stations: readonly Stroke[]): Item[] {
  const room = emptySpace(view, [...straightChords(stations), ...markChords(view)]);
  const named = labelContext(view, room.drawnBoxes);
  const labels = [
    ...seamLabels(view, room.occupied),
    ...landmarkLabels(view, room, named),
    ...jointLabels(view, room, named),
    ...foldTabLabels(view, room),
    ...continuationArrows(view, room),
  ];
  const required = titleAndBars(view, room, 'name');
  return required
    ? [...labels, ...required, ...otherLabels(view, room, named)]
    : annotateCrowded(view, stations);
}

/** The name and the bars in whichever order finds room for both, at worst across station lines, then joints. */
function annotateCrowded(view: SheetContext, stations: readonly Stroke[]): Item[] {
  const all = [...straightChords(stations), ...markChords(view)];
  let room = emptySpace(view, all);
  let required: Item[] | undefined;
  for (const avoided of [all, markChords(view), []])
    for (const first of ['name', 'bars'] as const) {
      if (required) break;
      room = emptySpace(view, avoided);
      required = titleAndBars(view, room, first);
    }
  const lines = boxesAlongLines(all, STATION_WHITE_MM);
  room.occupied.push(...lines);
  const named = labelContext(view, new Set([...room.drawnBoxes, ...lines]));
  return [
    ...(required ?? titleIn(view, room) ?? []),
    ...seamLabels(view, room.occupied),
    ...landmarkLabels(view, room, named),
    ...jointLabels(view, room, named),
    ...foldTabLabels(view, room),
    ...otherLabels(view, room, named),
    ...continuationArrows(view, room),
  ];
}

function titleAndBars(view: SheetContext, room: OccupiedSpace, first: 'name' | 'bars'): Item[] | undefined {
  const [one, other] = first === 'name' ? [titleIn, scaleBarsBothWays] : [scaleBarsBothWays, titleIn];
  const items = one(view, room);
  const more = items && other(view, room);
  return items && more && [...items, ...more];
}

const titleIn = (view: SheetContext, room: OccupiedSpace): Item[] | undefined =>
  titleBlock(view, [room, windowSpace(view, room)]);

const otherLabels = (view: SheetContext, room: OccupiedSpace, named: LabelContext): Item[] => {
  const { left, right, bottom, top } = room.area;
  return [
    ...stationLabels(view, room, named),
    ...legend(view, room, { x: right, y: bottom }),
    ...grainArrow(view, room, { x: (left + right) / 2, y: (bottom + top) / 2 }),
    ...faceMark(view, room),
  ];
};

/** What labels name on a sheet, and what a line to one may cross: `drawn`. */
const labelContext = (view: SheetContext, drawn: ReadonlySet<Box>): LabelContext => ({
  anchors: [...stationAnchors(view), ...jointAnchors(view)],
  lines: view.lines,
  drawn,
});

/** The room and the strips beyond the trim lines with it. */
const windowSpace = ({ sheet }: SheetContext, { occupied }: OccupiedSpace): OccupiedSpace => ({
  area: inflate(sheet.window, -1),
  occupied,
});

/**
 * The scale bars across and down; undefined when one finds no place. They are measured before the
 * sheets are trimmed, so where need be they run into the strips beyond the trim lines.
 */
function scaleBarsBothWays(view: SheetContext, room: OccupiedSpace): Item[] | undefined {
  const rooms = [room, windowSpace(view, room)];
  const { left, right, bottom, top } = room.area;
  const across = scaleBars(rooms, 'across', { x: left, y: bottom });
  const down = scaleBars(rooms, 'down', { x: right, y: top });
  return across && down && [...across, ...down];
}

/** What is laid out on the face and beside it, as words keep clear of it. */
const markChords = (view: SheetContext): Chord[] => [...jointChordsOnSheet(view), ...foldTabChords(view)];

/** A sheet's room before any words, and the boxes of it that hold lines. */
interface EmptySpace extends OccupiedSpace {
  readonly drawnBoxes: ReadonlySet<Box>;
}

function emptySpace(view: SheetContext, avoided: readonly Chord[]): EmptySpace {
  const { sheet, layout } = view;
  const crosses = layout.crosses.filter((cross) => cross.sheet === sheet.name);
  const lines = boxesAlongLines(view.lines, CUT_LINE_WHITE_MM + SHEET_CHORD_MM);
  const drawn = [
    ...lines,
    ...boxesAlongLines(chordAndCentreLine(view), STATION_WHITE_MM),
    ...boxesAlongLines(avoided, STATION_WHITE_MM),
  ];
  return {
    area: inflate(sheet.cell, -INSET_MM),
    lineBoxes: new Set(lines),
    drawnBoxes: new Set(drawn),
    occupied: [
      ...drawn,
      ...sheet.marks.map(({ at }) => squareAround(onSheet(view, at), REGISTER_REACH_MM + 1)),
      ...crosses.map(({ at }) => squareAround(onSheet(view, at), CROSS_REACH_MM)),
    ],
  };
}

const straightChords = (strokes: readonly Stroke[]): Chord[] =>
  strokes.flatMap(({ path }) => path.filter((segment) => segment.type === 'line'));
