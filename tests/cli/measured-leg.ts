import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fairlath, freshFolder, root } from './run.ts';

export const leg = join(root, 'samples/hall-bench-leg.yaml');
export const measured = join(root, 'samples/hall-bench-leg-measured.csv');

export function folderWith(files: Readonly<Record<string, string | Buffer>>): string {
  const folder = freshFolder();
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  return folder;
}

export const offsetsOf = (every: string): { station: number; offset: number }[] =>
  JSON.parse(fairlath(['offsets', leg, '--edge', 'back', '--every', every, '--json']).out).edges[0].rows;

export const csvOf = (rows: readonly { station: number; offset: number }[], off = 0, sign = 1): string =>
  ['station_mm,offset_mm', ...rows.map((row) => `${row.station},${sign * (row.offset + off)}`)].join('\n');
