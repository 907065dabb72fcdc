import { expect, test } from 'vitest';
import { fairlath } from '../cli/run.ts';
import { pageNamed } from './pages.ts';

const page = pageNamed('choosing-a-curve.md');
const MM_PER_INCH = 25.4;
/** The header of a table of distances. */
const KINDS = ['batten', 'bow', 'spline'];

interface Shown {
  readonly edges: readonly [{ readonly runs: readonly [{ readonly apart: readonly Apart[] }] }];
}
interface Apart {
  readonly kind: string;
  readonly worst: number;
}

function distances(kind: string, rise: number): ReadonlyMap<string, number> {
  const { out } = fairlath(['show', '--curve', kind, '--chord', '24', '--rise', String(rise), '--json']);
  const [edge] = (JSON.parse(out) as Shown).edges;
  return new Map(edge.runs[0].apart.map((each) => [each.kind, each.worst]));
}

/** "1 15/32" as marks of 1/32 in. */
function typedMarks(cell: string): number {
  const [, whole = '0', above = '0', below = '1'] = /^(?:(\d+)(?: |$))?(?:(\d+)\/(\d+))?$/.exec(cell) ?? [];
  return (Number(whole) + Number(above) / Number(below)) * 32;
}

test.each([
  ['A shallow curve', 3],
  ['A deep curve', 10],
])('%s: the distances are those that show gives', (section, rise) => {
  const [, after = ''] = page.text.split(`\n## ${section}\n`);
  const [own = ''] = after.split(/^## /m);
  const rows = [...own.matchAll(/^\| \*\*(\w+)\*\* \|(.+)\|$/gm)];
  expect(rows.length).toBeGreaterThan(2);
  for (const [, kind = '', cells = ''] of rows) {
    const shown = distances(kind, rise);
    for (const [i, cell] of cells.split('|').entries()) {
      if (cell.trim() === '') continue;
      const exact = shown.get(KINDS[i] ?? '') ?? Number.NaN;
      expect(typedMarks(cell.trim()), `${kind} and ${KINDS[i]}`).toBe(Math.round((exact / MM_PER_INCH) * 32));
    }
  }
});
