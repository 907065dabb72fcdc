import type { EndSide } from '../../job/job.ts';
import { type CutEnd, isCutOff } from '../../part/ends/cut-ends.ts';
import { type BaseLine, offsetsAt, offsetsBeside, SAME_OFFSET_MM, toBaseLine } from '../../part/offsets.ts';
import type { PartEdge } from '../../part/part.ts';
import { plainOnRule, type Rule } from '../../units/rule.ts';

export interface OffsetsRow {
  readonly station: number;
  /** The first where the edge doubles back. */
  readonly offset: number;
  readonly side?: EndSide;
  readonly passes: number;
  /** Where a cut leaves the edge short: its wood ends here, or ended before. */
  readonly wood?: 'ends' | 'none';
  readonly shown: string;
}

export interface OffsetsTable {
  readonly name: string;
  readonly rows: readonly OffsetsRow[];
}

/** A station the edge does not reach has no row, a shoulder's has two; `cuts` leave the edge short. */
export function offsetsTable(
  edge: PartEdge,
  stations: readonly number[],
  rule: Rule,
  base?: BaseLine,
  cuts: readonly CutEnd[] = [],
): OffsetsTable {
  const rows = stations.flatMap((station) => {
    const wood = woodAt(cuts, station, base);
    return offsetsBeside(edge, station, base).map(({ offset, side }): OffsetsRow => {
      const passes = side ? 1 : offsetsAt(edge, station, base).length;
      const shown = plainOnRule(offset, rule);
      return { station, offset, ...(side && { side }), passes, ...(wood && { wood }), shown };
    });
  });
  return { name: edge.name, rows };
}

function woodAt(cuts: readonly CutEnd[], station: number, base?: BaseLine): OffsetsRow['wood'] {
  if (isCutOff(cuts, station, base)) return 'none';
  const ends = cuts.some(({ at }) => Math.abs(toBaseLine(at, base).x - station) < SAME_OFFSET_MM);
  return ends ? 'ends' : undefined;
}

export const addCutEnds = (stations: readonly number[], cuts: readonly CutEnd[], base?: BaseLine): number[] =>
  cuts
    .map(({ at }) => toBaseLine(at, base).x)
    .filter((end) => !stations.some((station) => Math.abs(station - end) < SAME_OFFSET_MM))
    .concat(stations)
    .sort((a, b) => a - b);

export const rowNote = ({ side, wood }: OffsetsRow): string =>
  [...(side ? [`${side} of shoulder`] : []), ...(wood ? [WOOD_WORDS[wood]] : [])].join(', ');

export const WOOD_WORDS = { ends: 'end of the wood', none: 'past the end' } as const;
