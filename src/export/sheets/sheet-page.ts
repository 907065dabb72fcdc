import { inflate, squareAround } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten, segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import { point } from '../../curves/geometry/point.ts';
import { grainOnPart } from '../../shop/wood/grain-runout.ts';
import { CROSS_REACH_MM } from '../../tiling/check-crosses.ts';
import { REGISTER_REACH_MM } from '../../tiling/grid/seams.ts';
import type { Sheet } from '../../tiling/layout.ts';
import { type Item, type Page, polyline, type Stroke, type Words } from '../drawing/drawing.ts';
import { jointStrokes, partStrokes } from '../drawing/part-view.ts';
import { boxesAlongLines, type OccupiedSpace } from '../labels/free-space.ts';
import type { LabelSpace } from '../labels/place-labels.ts';
import { foldTabLabels, foldTabStrokes } from './draw-fold-tabs.ts';
import { faceMark } from './face-mark.ts';
import { grainArrow } from './grain-arrow.ts';
import { jointAnchors, jointLabels } from './joint-marks.ts';
import { legend } from './legend.ts';
import { checkCrossMarks, crossesOn, registerMarks, seamLabels, trimLines } from './register-marks.ts';
import { scaleBar } from './scale-bars.ts';
import type { LabelledSheet, Pattern, SheetContext } from './sheet-context.ts';
import { finishedStyle, SHEET_CHORD_MM, sheetContext } from './sheet-context.ts';
import { sheetMap } from './sheet-map.ts';
import { referenceCurveLabel, sideLabels } from './side-labels.ts';
import { placeInWood, wasteLabels, woodLabel } from './side-names.ts';
import { stationLabels } from './station-labels.ts';
import { landmarkSigns, stationAnchors, stationLines } from './station-lines.ts';
import { titleBlock } from './title-block.ts';

const CUT_LINE_WHITE_MM = 1.5;
const INSET_MM = 3;
const STATION_WHITE_MM = 0.5;
/** A line to flip on runs this far past the part, to be laid on a line squared across the wood, mm. */
const CENTRE_PAST_MM = 12;

/** One sheet of the pattern at true size. */
export function sheetPage(pattern: Pattern, sheet: Sheet): Page {
  const context = sheetContext(pattern, sheet);
  const stations = stationLines(context);
  const [tabs, joints] = [foldTabStrokes(context), jointStrokes(context, context.dimensions.joints)];
  const jointChords = joints.flatMap(({ path }) => flatten(path));
  const marks = [
    ...jointChords.filter((chord) => segmentIntersectsBox(chord, sheet.window)),
    ...tabs.flatMap(({ path }) => flatten(path)),
  ];
  // Each is drawn whole, so that its dashes agree from sheet to sheet.
  const styles = { saw: 'sheet-saw', finished: finishedStyle(pattern.notes) } as const;
  const ofPart = [...guideLines(context), ...partStrokes(context, ['saw', 'finished'], styles)];
  const clipped = [...stations, ...tabs, ...ofPart, ...joints, ...landmarkSigns(context)];
  const anchors = { stationAnchors: stationAnchors(context), jointAnchors: jointAnchors(context) };
  const annotations = annotate({ ...context, ...anchors }, straightChords(stations), marks);
  const page = composeSheet(context, clipped, annotations);
  const curve = pattern.notes?.referenceCurve;
  if (!curve) return page;
  // The reference curve lies beneath all else.
  const { path, closed } = curve;
  const dashed: Stroke = { type: 'stroke', style: 'parallel', path: context.path(path), closed };
  const items: Item[] = [{ type: 'clip', ...sheet.window, items: [dashed] }, ...page.drawing.items];
  return { ...page, drawing: { ...page.drawing, items } };
}

/** What is clipped to the sheet's window, and what is written over it. */
function composeSheet(
  context: SheetContext,
  clipped: readonly (Stroke | Words)[],
  annotations: readonly Item[],
): Page {
  const { sheet } = context;
  const { width, height } = sheet.size;
  const items: Item[] = [
    { type: 'clip', ...sheet.window, items: clipped },
    ...trimLines(sheet),
    ...registerMarks(context),
    ...checkCrossMarks(context),
    ...annotations,
  ];
  return { name: sheet.name, drawing: { width, height, items }, stretch: sheet.stretch };
}

function guideLines(context: SheetContext): Stroke[] {
  const { shape } = context.part;
  const chord = partStrokes(context, ['chord']);
  if (shape.type !== 'half') return chord;
  const [low, high] = shape.centre;
  const ends = [point(low.x, low.y - CENTRE_PAST_MM), point(high.x, high.y + CENTRE_PAST_MM)];
  return [...chord, polyline('centre', ends.map(context.at))];
}

const straightChords = (strokes: readonly Stroke[]): Chord[] =>
  strokes.flatMap(({ path }) => path.filter((segment) => segment.type === 'line'));

type AnchoredSheet = Omit<LabelledSheet, 'space'>;

/** The bars go where the labels of the line leave room; on a crowded sheet title and bars go before all else. */
function annotate(context: AnchoredSheet, stations: readonly Chord[], marks: readonly Chord[]): Item[] {
  const lines = [...stations, ...marks];
  const sheet = { ...context, space: emptySpace(context, lines) };
  const title = titleBlock(sheet);
  const labels = lineLabels(sheet);
  const bars = barsBothWays(sheet);
  if (title && bars) return [...title, ...labels, ...bars, ...otherLabels(sheet)];
  return annotateCrowded(context, [lines, marks, []], lines);
}

/** Lines to keep clear of are tried in turn: at worst title and bars go across station lines, then joints. */
function annotateCrowded(
  context: AnchoredSheet,
  avoided: readonly (readonly Chord[])[],
  lines: readonly Chord[],
): Item[] {
  const tries = avoided.flatMap((some) => (['title', 'bars'] as const).map((first) => ({ some, first })));
  let space = emptySpace(context, []);
  let required: Item[] | undefined;
  for (const { some, first } of tries) {
    space = emptySpace(context, some);
    required = titleAndBars({ ...context, space }, first);
    if (required) break;
  }
  const boxes = boxesAlongLines(lines, STATION_WHITE_MM);
  space.occupied.push(...boxes);
  const crossable = new Set([...space.crossable, ...boxes]);
  const sheet = { ...context, space: { ...space, crossable } };
  const title = required ?? titleBlock(sheet) ?? [];
  return [...title, ...lineLabels(sheet), ...otherLabels(sheet)];
}

function titleAndBars(sheet: LabelledSheet, first: 'title' | 'bars'): Item[] | undefined {
  const [one, other] = first === 'title' ? [titleBlock, barsBothWays] : [barsBothWays, titleBlock];
  const items = one(sheet);
  const more = items && other(sheet);
  return items && more && [...items, ...more];
}

function barsBothWays(sheet: LabelledSheet): Item[] | undefined {
  const { left, right, bottom, top } = sheet.space.area;
  const across = scaleBar(sheet, 'across', { x: left, y: bottom });
  const down = scaleBar(sheet, 'down', { x: right, y: top });
  return across && down && [...across, ...down];
}

const lineLabels = (sheet: LabelledSheet): Item[] => [
  ...sideLabels(sheet),
  ...seamLabels(sheet),
  ...jointLabels(sheet),
  ...stationLabels(sheet),
  ...foldTabLabels(sheet),
  ...referenceCurveLabel(sheet),
];

const otherLabels = (sheet: LabelledSheet): Item[] => [
  ...wasteLabels(sheet),
  ...legend(sheet),
  ...sheetMap(sheet),
  ...(sheet.notes || sheet.part.laminate
    ? []
    : grainArrow(sheet, grainOnPart(sheet.part), (block) => placeInWood(sheet, [block]))),
  ...woodLabel(sheet),
  ...faceMark(sheet),
];

function emptySpace(context: AnchoredSheet, avoided: readonly Chord[]): LabelSpace {
  const { stationAnchors: stations, jointAnchors: joints } = context;
  const lines = boxesAlongLines(context.lines, CUT_LINE_WHITE_MM + SHEET_CHORD_MM);
  const straight = [...straightChords(guideLines(context)), ...avoided];
  const drawn = [...lines, ...boxesAlongLines(straight, STATION_WHITE_MM)];
  return {
    ...spaceBeside(context, drawn),
    anchors: [...stations, ...joints],
    lines: context.lines,
    lineBoxes: new Set(lines),
    crossable: new Set(drawn),
  };
}

function spaceBeside(context: SheetContext, drawn: OccupiedSpace['occupied']): OccupiedSpace {
  const { cell, marks } = context.sheet;
  const registers = marks.map(({ at }) => squareAround(context.at(at), REGISTER_REACH_MM + 1));
  const crosses = crossesOn(context).map(({ at }) => squareAround(context.at(at), CROSS_REACH_MM));
  return { area: inflate(cell, -INSET_MM), occupied: [...drawn, ...registers, ...crosses] };
}
