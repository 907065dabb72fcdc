import { type BaseLine, offsetsAt } from '../part/offsets.ts';
import type { PartEdge } from '../part/part.ts';
import { type Rule, showOnRule } from '../units/rule.ts';

export interface OffsetsRow {
  readonly station: number;
  /** The first where the edge doubles back. */
  readonly offset: number;
  /** How often the edge passes the station. */
  readonly passes: number;
  readonly shown: string;
}

/** An edge's offsets, mm, and as a rule shows them. */
export interface OffsetsTable {
  readonly name: string;
  readonly rows: readonly OffsetsRow[];
}

/** The offsets at some stations; a station the edge does not reach has no row. */
export function offsetsTable(
  edge: PartEdge,
  stations: readonly number[],
  rule: Rule,
  base?: BaseLine,
): OffsetsTable {
  const rows = stations.flatMap((station): OffsetsRow[] => {
    const offsets = offsetsAt(edge, station, base);
    const [offset] = offsets;
    return offset === undefined
      ? []
      : [{ station, offset, passes: offsets.length, shown: showOnRule(offset, rule) }];
  });
  return { name: edge.name, rows };
}
