import type { Side } from '../job/job.ts';
import { type BaseLine, offsetsAt, offsetsBeside } from '../part/offsets.ts';
import type { PartEdge } from '../part/part.ts';
import { type Rule, showOnRule } from '../units/rule.ts';

export interface OffsetsRow {
  readonly station: number;
  /** The first where the edge doubles back. */
  readonly offset: number;
  /** At a shoulder: on which side of it, stations running to the right. */
  readonly side?: Side;
  /** How often the edge passes the station. */
  readonly passes: number;
  readonly shown: string;
}

/** An edge's offsets, mm, and as a rule shows them. */
export interface OffsetsTable {
  readonly name: string;
  readonly rows: readonly OffsetsRow[];
}

/** The offsets at some stations; a station the edge does not reach has no row, a shoulder's has one for either side. */
export function offsetsTable(
  edge: PartEdge,
  stations: readonly number[],
  rule: Rule,
  base?: BaseLine,
): OffsetsTable {
  const rows = stations.flatMap((station) =>
    offsetsBeside(edge, station, base).map(({ offset, side }): OffsetsRow => {
      const passes = side ? 1 : offsetsAt(edge, station, base).length;
      return { station, offset, ...(side && { side }), passes, shown: showOnRule(offset, rule) };
    }),
  );
  return { name: edge.name, rows };
}
