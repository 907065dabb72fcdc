import type { Point } from '../../curves/geometry/point.ts';
import { itemAt } from '../../units/checked.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { cutEnds, isCutOff } from '../ends/cut-ends.ts';
import { edgeMarks } from '../joints/edge-joint.ts';
import { cornersOf, landmarks } from '../landmarks.ts';
import { type BaseLine, offsetsAt, stationRangeAlong, toBaseLine } from '../offsets.ts';
import type { Landmark, Part, PartEdge } from '../part.ts';

export interface StickTick {
  readonly station: number;
  readonly offset: number;
  readonly what: Landmark['what'] | 'station' | `joint ${number}`;
}

/** What an edge reads along a stick laid on a line, from the line's station 0 or the edge's own start. */
export interface StickRow {
  /** The name of the edge that is read. */
  readonly edge: string;
  /** The first station along the line, mm. */
  readonly from: number;
  /** The last, mm. */
  readonly to: number;
  /** How far apart the stations are that are no ends, mm; Infinity for fewer than two. */
  readonly spacing: number;
  /** By station; no two that a rule cannot tell apart but a shoulder's, its left corner first. */
  readonly ticks: readonly StickTick[];
  /** The stations of those that the edge passes more than once, mm: a rule may read another offset there. */
  readonly doubled: readonly number[];
}

/** Where a landmark and a station read alike the landmark is kept; where the edge doubles back, the first offset. */
export function stickRow(part: Part, edge: PartEdge, base: BaseLine, stations: readonly number[]): StickRow {
  const [from, to] = stationRangeAlong(edge, base);
  const { rule } = part;
  const cuts = cutEnds(part, edge);
  const tick = (what: StickTick['what'], at: Point): StickTick => {
    const { x: station, y: offset } = toBaseLine(at, base);
    return { what, station, offset };
  };
  const named = landmarks(part)
    .filter((mark) => mark.edge === edge.name)
    .flatMap((mark) => cornersOf(mark).map((at) => tick(mark.what, at)))
    .concat(cuts.map(({ at }) => tick('end', at)))
    .concat(jointEnds(part, edge).map(({ at, what }) => tick(what, at)))
    .filter(({ station }) => !isCutOff(cuts, station, base));
  const isNamed = (station: number): boolean =>
    named.some((mark) => readOnRule(mark.station, rule).mark === readOnRule(station, rule).mark);
  const plain = stations.flatMap((station): StickTick[] => {
    const [offset] = offsetsAt(edge, station, base);
    if (offset === undefined || isCutOff(cuts, station, base) || isNamed(station)) return [];
    return [{ what: 'station', station, offset }];
  });
  const ticks = [...named, ...plain].sort((a, b) => a.station - b.station);
  const spacing = stations.length > 3 ? itemAt(stations, 2) - itemAt(stations, 1) : Number.POSITIVE_INFINITY;
  const doubled = ticks
    .filter(({ what, station }) => what !== 'shoulder' && offsetsAt(edge, station, base).length > 1)
    .map(({ station }) => station);
  return { edge: edge.name, from: Math.min(0, from), to, spacing, ticks, doubled };
}

/** Where the joints on an edge start and end, by their numbers. */
const jointEnds = (part: Part, edge: PartEdge) =>
  part.joints.flatMap((joint, i) => {
    const marks = joint.face === edge.name ? edgeMarks(joint, part) : undefined;
    const what = `joint ${i + 1}` as const;
    return marks ? [marks.start, marks.end].map((at) => ({ at, what })) : [];
  });

/** Whether an edge is the very line it is measured from: there is nothing to read. */
export const isOnBase = ({ ticks }: StickRow, rule: Rule): boolean =>
  ticks.every(({ offset }) => readOnRule(offset, rule).mark === 0);
