import type { EndSide } from '../../job/job.ts';
import { cutEnds } from '../../part/ends/cut-ends.ts';
import type { Landmark, Part, PartEdge } from '../../part/part.ts';
import { lastOf } from '../../units/checked.ts';
import { type Dimensions, type Station, stationAt, stationSides } from '../drawing/dimensions.ts';

export interface OffsetRow extends Station {
  /** Ends only where a cut leaves the edge short of where it was set out to. */
  readonly marks: readonly Landmark[];
}

/** Stations and landmarks in order; a shoulder's station twice, its left side first. */
export function offsetRowsOf(
  part: Part,
  { stations, landmarks }: Dimensions,
  edges: readonly PartEdge[] = part.edges,
): OffsetRow[] {
  const last = lastOf(stations).station;
  const named = [
    ...landmarks.filter(({ what }) => what !== 'end'),
    ...cutEndLandmarks(part, edges).filter(({ at }) => at.x <= last),
  ];
  const extra = named.map(({ at }) => stationAt(part, at.x));
  const unknown = extra.filter(({ station }) => !stations.some((known) => isSame(known.station, station)));
  const isMarked = ({ what, at }: Landmark, { station, side }: Station): boolean =>
    isSame(at.x, station) && (what === 'shoulder' || side !== 'right');
  return [...stations, ...unknown]
    .sort((a, b) => a.station - b.station)
    .filter(({ station }, i, sorted) => !isSame(station, sorted[i - 1]?.station))
    .flatMap(({ station }) => stationSides(part, station))
    .map((row) => ({ ...row, marks: named.filter((mark) => isMarked(mark, row)) }))
    .filter(({ offsets }) => offsets.some((offset) => offset !== undefined));
}

const cutEndLandmarks = (part: Part, edges: readonly PartEdge[]): Landmark[] =>
  edges.flatMap((edge) => cutEnds(part, edge).map(({ at }) => ({ what: 'end', at, edge: edge.name })));

/** Two stations this near are one row, mm. */
const SAME_STATION_MM = 0.01;

const isSame = (a: number, b: number | undefined): boolean =>
  b !== undefined && Math.abs(a - b) < SAME_STATION_MM;

export const landmarkNote =
  ({ edges }: Part, side?: EndSide) =>
  ({ what, edge }: Landmark): string =>
    `${landmarkName(what, side)}${edges.length > 1 ? ` of ${edge}` : ''}`;

export const landmarkName = (what: Landmark['what'], side: EndSide | undefined): string =>
  what === 'shoulder' && side ? `${side} of shoulder` : what;
