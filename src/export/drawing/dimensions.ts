import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { EndSide } from '../../job/job.ts';
import type { Joint } from '../../job/joints/joint-kinds.ts';
import { stationRange } from '../../part/edge.ts';
import { cutEnds, isCutOff } from '../../part/ends/cut-ends.ts';
import { endStrips, type FoldTab } from '../../part/ends/fold-tabs.ts';
import { cornersOf, landmarks } from '../../part/landmarks.ts';
import { offsetAt, offsetsBeside, stationSpacing, stationsEvery } from '../../part/offsets.ts';
import type { Landmark, Part, PartEdge } from '../../part/part.ts';
import { patternChord } from '../../part/part-lines.ts';
import { shownJoints } from '../../tiling/grid/required-content.ts';
import type { ShowLength } from '../../units/fault.ts';
import { graduationMm, type LengthFormat } from '../../units/graduation.ts';
import { capitalize } from '../../units/number-format.ts';
import { type Rule, showLength, showNearest, showOnRule, showSize } from '../../units/rule.ts';
import { typesetMeasures } from '../../units/typeset.ts';

export interface Dimensions {
  readonly stations: readonly Station[];
  readonly landmarks: readonly Landmark[];
  readonly joints: readonly Joint[];
  readonly foldTabs: readonly FoldTab[];
}

export interface Station {
  readonly station: number;
  readonly side?: EndSide;
  /** In the order of the part's edges; none where an edge does not reach, nor past the cut of its end. */
  readonly offsets: readonly (number | undefined)[];
}

/** So many stations fill a cover's column and stand three or four to a sheet. */
const MAX_PRINTED_STATIONS = 12;

/** With about `mostStations` stations. */
export function dimensionsOf(part: Part, mostStations = MAX_PRINTED_STATIONS): Dimensions {
  const [from, to] = stationRange(part.edges);
  const end = part.shape.type === 'half' ? part.shape.centre[0].x : to;
  const every = stationSpacing(end - from, part.rule.unit, mostStations);
  return {
    stations: stationsEvery(from, end, every).map((station) => stationAt(part, station)),
    landmarks: landmarks(part).filter(({ at }) => at.x <= end + JOIN_MM),
    joints: shownJoints(part),
    foldTabs: endStrips(part),
  };
}

/** The offsets of every edge at one station, mm; undefined where the end is cut off. */
export function stationAt(part: Part, station: number): Station {
  const isCut = (edge: PartEdge): boolean => isCutOff(cutEnds(part, edge), station);
  return { station, offsets: part.edges.map((edge) => (isCut(edge) ? undefined : offsetAt(edge, station))) };
}

/** Of a shoulder's station both sides. */
export function stationSides(part: Part, station: number): Station[] {
  const beside = part.edges.map((edge) =>
    isCutOff(cutEnds(part, edge), station) ? [] : offsetsBeside(edge, station),
  );
  if (!beside.some(([first]) => first?.side)) return [stationAt(part, station)];
  return (['left', 'right'] as const).map((side) => {
    const corners = beside.map((all) => (side === 'left' ? all[0] : all.at(-1)));
    return { station, side, offsets: corners.map((corner) => corner?.offset) };
  });
}

/** The offsets of the edges at a station, both of a shoulder; on a line pattern also that of the chord. */
export function offsetsAtStation({ edges, shape }: Part, station: number): number[] {
  const offsets = edges.flatMap((edge) => offsetsBeside(edge, station).map(({ offset }) => offset));
  const chord = patternChord(shape);
  if (!chord || offsets.length === 0) return offsets;
  const [from, to] = chord;
  return [...offsets, from.y + ((to.y - from.y) * (station - from.x)) / (to.x - from.x)];
}

/** What a landmark's offset reads; of a shoulder those of both its corners, the left one first. */
export const offsetText = (mark: Pick<Landmark, 'at' | 'to'>, show: ShowLength): string =>
  cornersOf(mark)
    .map(({ y }) => show(y))
    .join(' to ');

/** A length as printed: with its unit, real fractions and a real minus. */
export const printedLength = (mm: number, rule: Rule): string => typesetMeasures(showLength(mm, rule));

/** The same for tables that name the unit once. */
export const lengthWithoutUnit = (mm: number, rule: Rule): string => typesetMeasures(showOnRule(mm, rule));

/** A share of a mark: a tolerance is known to two figures, so this little over a mark does not take the next one. */
const OVER_A_MARK = 0.02;

/** Rounded up to the rule's finest mark, mm, for less cannot be read. */
export function roundedTolerance(mm: number, rule: Rule): number {
  const mark = graduationMm(rule);
  return Math.max(1, Math.ceil(mm / mark - OVER_A_MARK)) * mark;
}

/** "± 1⁄16″" */
export const toleranceText = (mm: number, rule: Rule): string =>
  `± ${printedLength(roundedTolerance(mm, rule), rule)}`;

/** "1⁄2″", "12.7 mm": a size that is bought, as printed. */
export const printedSize = (mm: number, rule: Rule): string => typesetMeasures(showSize(mm, rule));

/** The unit by its name: "in" would read as the word. */
export const unitWord = ({ unit }: Rule): string => (unit === 'in' ? 'inches' : 'mm');

export const graduationText = (rule: Rule): string => printedLength(graduationMm(rule), rule);

export const printedLengthWords = (rule: Rule): LengthFormat => ({
  exact: (mm) => printedLength(mm, rule),
  rounded: (mm) => about(mm, rule),
  unit: rule.unit,
});

/** To the nearest mark, with its unit: nobody cuts a blank or sets a stand to a hair. */
export const about = (mm: number, rule: Rule): string => typesetMeasures(showNearest(mm, rule));

export const sentence = (text: string): string => typesetMeasures(capitalize(text));
