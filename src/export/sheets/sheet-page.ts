import { around, type Box, grown } from '../../curves/geometry/bounds.ts';
import type { Chord } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { chordOf } from '../../part/finished-line.ts';
import { CROSS_REACH_MM } from '../../tiling/check-crosses.ts';
import { REGISTER_REACH_MM } from '../../tiling/grid/seams.ts';
import type { Sheet } from '../../tiling/layout.ts';
import { type Item, type Page, polyline, type Stroke } from '../drawing/drawing.ts';
import { type Room, strips } from '../labels/free-space.ts';
import type { Named } from '../labels/place-labels.ts';
import { crossingArrows } from './continuation-arrows.ts';
import { foldChords, foldStrips, foldWords } from './draw-fold-tabs.ts';
import { faceMark } from './face-mark.ts';
import { grainArrow } from './grain-arrow.ts';
import { jointChords, jointLabels, jointStrokes, thingsOf } from './joint-marks.ts';
import { legend } from './legend.ts';
import { checkCrosses, registerMarks, seamWords, trimLines } from './register-marks.ts';
import { scaleBars } from './scale-bars.ts';
import {
  onSheet,
  type Pattern,
  pathOnSheet,
  type SheetView,
  sheetView,
  VIEW_CHORD_MM,
} from './sheet-context.ts';
import { landmarkLabels, landmarkSigns, placesOf, stationLabels, stationLines } from './station-lines.ts';
import { nameBlock } from './title-block.ts';

/** White between the line to cut and whatever stands near it, mm. */
const LINE_WHITE_MM = 1.5;

/** White between furniture and the trim lines, mm. */
const INSET_MM = 3;

/** White beside a station line and the chord, mm. */
const STATION_WHITE_MM = 0.5;

/** One sheet of the pattern at true size. */
export function sheetPage(pattern: Pattern, sheet: Sheet): Page {
  const view = sheetView(pattern, sheet);
  const stations = stationLines(view);
  const items: Item[] = [
    {
      type: 'clip',
      ...sheet.window,
      items: [
        ...stations,
        ...foldStrips(view),
        ...linesOn(view),
        ...jointStrokes(view),
        ...landmarkSigns(view),
      ],
    },
    ...trimLines(sheet),
    ...registerMarks(view),
    ...checkCrosses(view),
    ...furnish(view, stations),
  ];
  const { width, height } = sheet.size;
  return { name: sheet.name, drawing: { width, height, items }, stretch: sheet.stretch };
}

/** The lines of the part. Each is drawn whole, so that its dashes agree from sheet to sheet. */
function linesOn(view: SheetView): Stroke[] {
  const { shape, saw } = view.part;
  const closed = shape.type === 'closed';
  const chord = chordOf(shape);
  return [
    ...(chord ? [stroke(view, 'chord', [{ type: 'line', from: chord[0], to: chord[1] }])] : []),
    ...(shape.type === 'half' ? [centreLine(view, shape.centre)] : []),
    ...(saw.length > 0 ? [stroke(view, 'saw', saw, closed)] : []),
    closed ? stroke(view, 'cut', shape.outline, true) : stroke(view, 'cut', shape.line),
  ];
}

function straightLines(view: SheetView): Chord[] {
  const { shape } = view.part;
  const chord = chordOf(shape);
  const centre = shape.type === 'half' ? centreLine(view, shape.centre) : undefined;
  return [
    ...(chord ? [{ from: onSheet(view, chord[0]), to: onSheet(view, chord[1]) }] : []),
    ...(centre ? straight([centre]) : []),
  ];
}

/** A line to flip on runs this far past the part, to be laid on a line squared across the wood, mm. */
const CENTRE_PAST_MM = 12;

const centreLine = (view: SheetView, [low, high]: readonly [Point, Point]): Stroke =>
  polyline('centre', [
    onSheet(view, point(low.x, low.y - CENTRE_PAST_MM)),
    onSheet(view, point(high.x, high.y + CENTRE_PAST_MM)),
  ]);

const stroke = (view: SheetView, style: Stroke['style'], path: Stroke['path'], closed = false): Stroke => ({
  type: 'stroke',
  style,
  path: pathOnSheet(view, path),
  ...(closed ? { closed } : {}),
});

/**
 * Names, bars and labels, each where it covers nothing. The sheet's name and its bars look best when
 * the labels of the line have their places first; on a crowded sheet they go before all else.
 */
function furnish(view: SheetView, stations: readonly Stroke[]): Item[] {
  const room = emptyRoom(view, [...straight(stations), ...layOutLines(view)]);
  const named = namedOn(view, room.drawn);
  const labels = [
    ...seamWords(view, room.taken),
    ...landmarkLabels(view, room, named),
    ...jointLabels(view, room, named),
    ...foldWords(view, room),
    ...crossingArrows(view, room),
  ];
  const musts = nameAndBars(view, room, 'name');
  return musts ? [...labels, ...musts, ...otherLabels(view, room, named)] : furnishCrowded(view, stations);
}

/** The name and the bars in whichever order finds room for both, at worst across station lines, then joints. */
function furnishCrowded(view: SheetView, stations: readonly Stroke[]): Item[] {
  const all = [...straight(stations), ...layOutLines(view)];
  let room = emptyRoom(view, all);
  let musts: Item[] | undefined;
  for (const avoided of [all, layOutLines(view), []])
    for (const first of ['name', 'bars'] as const) {
      if (musts) break;
      room = emptyRoom(view, avoided);
      musts = nameAndBars(view, room, first);
    }
  const lines = strips(all, STATION_WHITE_MM);
  room.taken.push(...lines);
  const named = namedOn(view, new Set([...room.drawn, ...lines]));
  return [
    ...(musts ?? nameOf(view, room) ?? []),
    ...seamWords(view, room.taken),
    ...landmarkLabels(view, room, named),
    ...jointLabels(view, room, named),
    ...foldWords(view, room),
    ...otherLabels(view, room, named),
    ...crossingArrows(view, room),
  ];
}

function nameAndBars(view: SheetView, room: Room, first: 'name' | 'bars'): Item[] | undefined {
  const [one, other] = first === 'name' ? [nameOf, bothBars] : [bothBars, nameOf];
  const items = one(view, room);
  const more = items && other(view, room);
  return items && more && [...items, ...more];
}

const nameOf = (view: SheetView, room: Room): Item[] | undefined =>
  nameBlock(view, [room, wholeWindow(view, room)]);

const otherLabels = (view: SheetView, room: Room, named: Named): Item[] => {
  const { left, right, bottom, top } = room.area;
  return [
    ...stationLabels(view, room, named),
    ...legend(view, room, { x: right, y: bottom }),
    ...grainArrow(view, room, { x: (left + right) / 2, y: (bottom + top) / 2 }),
    ...faceMark(view, room),
  ];
};

/** What labels name on a sheet, and what a line to one may cross: `drawn`. */
const namedOn = (view: SheetView, drawn: ReadonlySet<Box>): Named => ({
  things: [...placesOf(view), ...thingsOf(view)],
  lines: view.lines,
  drawn,
});

/** The room and the strips beyond the trim lines with it. */
const wholeWindow = ({ sheet }: SheetView, { taken }: Room): Room => ({
  area: grown(sheet.window, -1),
  taken,
});

/**
 * The scale bars across and down; undefined when one finds no place. They are measured before the
 * sheets are trimmed, so where need be they run into the strips beyond the trim lines.
 */
function bothBars(view: SheetView, room: Room): Item[] | undefined {
  const rooms = [room, wholeWindow(view, room)];
  const { left, right, bottom, top } = room.area;
  const across = scaleBars(rooms, 'across', { x: left, y: bottom });
  const down = scaleBars(rooms, 'down', { x: right, y: top });
  return across && down && [...across, ...down];
}

/** What is laid out on the face and beside it, as words keep clear of it. */
const layOutLines = (view: SheetView): Chord[] => [...jointChords(view), ...foldChords(view)];

/** A sheet's room before any words, and the boxes of it that hold lines. */
interface EmptyRoom extends Room {
  readonly drawn: ReadonlySet<Box>;
}

function emptyRoom(view: SheetView, avoided: readonly Chord[]): EmptyRoom {
  const { sheet, layout } = view;
  const crosses = layout.crosses.filter((cross) => cross.sheet === sheet.name);
  const lines = strips(view.lines, LINE_WHITE_MM + VIEW_CHORD_MM);
  const drawn = [
    ...lines,
    ...strips(straightLines(view), STATION_WHITE_MM),
    ...strips(avoided, STATION_WHITE_MM),
  ];
  return {
    area: grown(sheet.cell, -INSET_MM),
    lines: new Set(lines),
    drawn: new Set(drawn),
    taken: [
      ...drawn,
      ...sheet.marks.map(({ at }) => around(onSheet(view, at), REGISTER_REACH_MM + 1)),
      ...crosses.map(({ at }) => around(onSheet(view, at), CROSS_REACH_MM)),
    ],
  };
}

const straight = (strokes: readonly Stroke[]): Chord[] =>
  strokes.flatMap(({ path }) => path.filter((segment) => segment.type === 'line'));
