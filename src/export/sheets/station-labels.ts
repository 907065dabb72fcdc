import { type Box, boundsOf, boxesOverlap, inflate } from '../../curves/geometry/bounds.ts';
import { add, distance, type Point, point, scale } from '../../curves/geometry/point.ts';
import { cornersOf, isGivenPoint } from '../../part/landmarks.ts';
import type { Landmark } from '../../part/part.ts';
import { readOnRule } from '../../units/rule.ts';
import { offsetText, printedLength } from '../drawing/dimensions.ts';
import type { Item } from '../drawing/drawing.ts';
import { type Block, boxAround } from '../labels/free-space.ts';
import { type Label, placeLabels } from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, offsetDirection, type SheetContext } from './sheet-context.ts';
import { FIGURE_HEIGHTS_MM, figures, NOTE_MM, type TypedLine, typedBlock } from './sheet-type.ts';
import {
  candidatesAlong,
  labelledLandmarks,
  POINT_RADIUS_MM,
  stationPoints,
  TICK_MM,
} from './station-lines.ts';
import { woodSide } from './wood-side.ts';

const SAME_PLACE_MM = 0.5;
const LEADER_GAP_MM = 0.8;
/** Off the edge, and off the station line, mm. */
const OFF_EDGE_MM = [1.7, 3, 5];
/** Below the face of a form is the line after springback. */
const OFF_FACE_MM = [1.7, 3, 5, 7, 9, 11, 13, 15, 18];
const OFF_STATION_MM = [0.7, 2.2];

/** Figures are beside a station line, so near to it that they need no leader, mm. */
const BESIDE_MM = 2.5;

/** Figures smaller than this, mm, only where a larger label finds no place, not even at the end of a leader. */
const READABLE_STANDING_MM = 3.5;

/** A place of an edge that has its figures: an offset, and for a landmark its name. */
type Mark = Pick<Landmark, 'at' | 'to'> & { readonly what?: Landmark['what'] };

/** The marks of one station on a sheet: that nearest the reference line carries the station. */
interface StationMarks {
  readonly foot: Mark;
  readonly others: readonly Mark[];
}

/** At each station on the sheet its own figure once, and the offset of every edge there. */
export function stationLabels(sheet: LabelledSheet): Item[] {
  const isHere = ({ at }: Mark): boolean => boxContains(sheet.sheet.cell, sheet.at(at));
  return stationsOn(sheet, isHere).flatMap(({ foot, others }) => {
    const station = `at ${printedLength(foot.at.x, sheet.part.rule)}`;
    const footItems = placeFigures(
      sheet,
      foot,
      isOnReference(sheet, foot) ? [station] : [station, offsetOf(sheet, foot)],
    );
    const named = others.flatMap((mark) => {
      const offset = offsetOf(sheet, mark);
      return placeFigures(sheet, mark, footItems.length > 0 ? [offset] : [station, offset]);
    });
    return [...footItems, ...named];
  });
}

const offsetOf = ({ part }: SheetContext, mark: Mark): string =>
  offsetText(mark, (mm) => printedLength(mm, part.rule));

/** A shoulder there needs both its offsets. */
const isOnReference = ({ part }: SheetContext, { at, to }: Mark): boolean =>
  to === undefined && readOnRule(at.y, part.rule).mark === 0;

/** A landmark takes the place of a station's point there. */
function stationsOn(sheet: SheetContext, isHere: (mark: Mark) => boolean): StationMarks[] {
  const named: Mark[] = labelledLandmarks(sheet);
  const corners = named.flatMap(cornersOf);
  const plain = stationPoints(sheet)
    .filter((at) => !corners.some((corner) => distance(corner, at) < SAME_PLACE_MM))
    .map((at): Mark => ({ at }));
  const groups: Mark[][] = [];
  for (const mark of [...named, ...plain].filter(isHere)) {
    const same = groups.find(([one]) => one && Math.abs(one.at.x - mark.at.x) < SAME_PLACE_MM);
    if (same) same.push(mark);
    else groups.push([mark]);
  }
  return groups.map((marks) => {
    const foot = marks.reduce((a, b) => (Math.abs(b.at.y) < Math.abs(a.at.y) ? b : a));
    return { foot, others: marks.filter((mark) => mark !== foot) };
  });
}

/** In the wood beside the station line, where the figures are still there after sawing; beyond the edge at last. */
function placeFigures(sheet: LabelledSheet, mark: Mark, lines: readonly string[]): Item[] {
  const { sawAllowance } = sheet.part;
  const feet = cornersOf(mark).map(sheet.at);
  const anchor = boundsOf(feet);
  const reach =
    mark.what === undefined || mark.what === 'shoulder'
      ? 0
      : isGivenPoint(mark.what)
        ? POINT_RADIUS_MM
        : TICK_MM;
  const intoWood = scale(offsetDirection(sheet), woodSide(sheet, mark.at));
  const name: TypedLine[] = mark.what === undefined ? [] : [{ text: mark.what, size: NOTE_MM, bold: true }];
  const place = (heights: readonly number[], more: Pick<Label, 'candidates' | 'withoutLeader'>): Item[] =>
    placeLabels(sheet.space, [
      {
        anchor,
        competing: sheet.stationAnchors,
        // A nail at a station is the same place, and so are the corners of a shoulder.
        isSame: (other: Box) => boxesOverlap(inflate(other, SAME_PLACE_MM), inflate(anchor, SAME_PLACE_MM)),
        blocks: heights.map((height) => typedBlock([...lines.map((text) => figures(text, height)), ...name])),
        ...more,
      },
    ]);
  const offEdge = sheet.notes?.sides ? OFF_FACE_MM : OFF_EDGE_MM;
  const inside = (block: Block) =>
    feet.flatMap((foot) => candidatesBeside(block, foot, intoWood, reach, offEdge));
  const along = (normal: Point, end: number) => (block: Block) =>
    feet.flatMap((foot) => candidatesAlong(block, foot, normal, end + LEADER_GAP_MM));
  const large = FIGURE_HEIGHTS_MM.filter((height) => height >= READABLE_STANDING_MM);
  const small = FIGURE_HEIGHTS_MM.filter((height) => height < READABLE_STANDING_MM);
  const tries: (() => Item[])[] = [
    () => place(large, { candidates: inside, withoutLeader: true }),
    () => place(large, { candidates: along(intoWood, reach) }),
    () => place(small, { candidates: inside, withoutLeader: true }),
    () => place(small, { candidates: along(intoWood, reach) }),
    () => place(FIGURE_HEIGHTS_MM, { candidates: along(scale(intoWood, -1), Math.max(reach, sawAllowance)) }),
  ];
  for (const attempt of tries) {
    const items = attempt();
    if (items.length > 0) return items;
  }
  return [];
}

/** In the corner between the edge and the station line, right of it before left of it. */
function candidatesBeside(
  { width, height }: Block,
  foot: Point,
  normal: Point,
  reach: number,
  offEdge: readonly number[],
) {
  const aside = point(Math.abs(normal.y), normal.x * -Math.sign(normal.y || 1));
  const half = (way: Point): number => (Math.abs(way.x) * width + Math.abs(way.y) * height) / 2;
  return offEdge.flatMap((off) =>
    OFF_STATION_MM.flatMap((beside) =>
      [1, -1].map((way) => {
        const middle = add(scale(normal, off + half(normal)), scale(aside, way * (beside + half(aside))));
        const end = Math.max(reach + LEADER_GAP_MM, off - BESIDE_MM);
        // Clear of the end of the wood, where a station is on it.
        const tip = add(foot, add(scale(normal, end), scale(aside, way * LEADER_GAP_MM)));
        return { box: boxAround(add(foot, middle), width, height), tip, normal };
      }),
    ),
  );
}
