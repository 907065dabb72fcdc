import { fairlath, LEG } from './run.ts';

interface OffsetRow {
  readonly station: number;
  readonly offset: number;
}

/** The rows of the table of offsets of the leg's back. */
export const offsetsOf = (every: string): OffsetRow[] =>
  JSON.parse(fairlath(['offsets', LEG, '--edge', 'back', '--every', every, '--json']).out).edges[0].rows;

/** Rows as readings, each off by so much. */
export const csvOf = (rows: readonly OffsetRow[], off = 0, sign = 1): string =>
  ['station_mm,offset_mm', ...rows.map((row) => `${row.station},${sign * (row.offset + off)}`)].join('\n');
