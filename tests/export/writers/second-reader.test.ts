import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Affine, invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import type { Point } from '../../../src/curves/geometry/point.ts';
import { writePatternPdf } from '../../../src/export/writers/pdf.ts';
import { pageMatrix } from '../../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { freshFolder } from '../../cli/run.ts';
import { backLeg } from '../../tiling/parts.ts';
import { fontBytes } from '../font.ts';
import { distanceToLine } from '../printed-line.ts';

// A reader of another make, where the system has one: poppler's command-line tools. Nothing needs it.
const TOOLS = ['pdfinfo', 'pdftocairo'];
const missing = TOOLS.filter((tool) => spawnSync(tool, ['-v']).error !== undefined);
const name =
  missing.length === 0 ? 'poppler' : `poppler (skipped: ${missing.join(' and ')} not on this computer)`;

/** What poppler's SVG may be off, mm: it keeps six decimals of a point. */
const READ_MM = 0.01;

async function printed(printer?: { across: number; down: number }) {
  const part = backLeg();
  const layout = layOut(part, {
    paper: parsePaper('letter'),
    margin: 12.7,
    overlap: 15,
    turn: 0,
    ...(printer && { printer }),
  });
  const file = join(freshFolder(), 'leg.pdf');
  writeFileSync(file, await writePatternPdf(part, layout, { font: fontBytes(), cover: true }));
  return { part, layout, file };
}

const run = (tool: string, args: readonly string[]): string =>
  spawnSync(tool, args, { encoding: 'utf8' }).stdout;

/** Where the paths of one line width go, points on the page from its lower left. */
function pathPoints(svg: string, width: string): Point[] {
  const height = Number(/height="([\d.]+)pt"/.exec(svg)![1]);
  return [...svg.matchAll(/<path style="([^"]*)" d="([^"]*)"(?: transform="matrix\(([^)]*)\)")?/g)]
    .filter(([, style]) => style!.includes(`stroke-width:${width}`))
    .flatMap(([, , d, matrix]) => {
      const into = (matrix ?? '1,0,0,1,0,0').split(',').map(Number) as unknown as Affine;
      return [...d!.matchAll(/[MLC] ([\d. -]+)/g)].map(([, numbers]) => {
        const [x, y] = numbers!.trim().split(' ').map(Number).slice(-2);
        return transformPoint(into, { x: x!, y: y! });
      });
    })
    .map(({ x, y }) => ({ x, y: height - y }));
}

describe.skipIf(missing.length > 0)(name, () => {
  test.each([
    ['true', undefined],
    ['made good', { across: 1.012, down: 0.993 }],
  ])('reads the pages at the paper’s size, %s', async (_, printer) => {
    const { file, layout } = await printed(printer);
    const sizes = [
      ...run('pdfinfo', ['-f', '1', '-l', '99', file]).matchAll(/size: +([\d.]+) x ([\d.]+) pts/g),
    ];
    expect(sizes).toHaveLength(layout.sheets.length + 1);
    for (const [, a, b] of sizes) expect([Number(a), Number(b)].sort((p, q) => p - q)).toEqual([612, 792]);
  });

  test.each([
    ['true', undefined],
    ['made good', { across: 1.012, down: 0.993 }],
  ])('reads the finished line where the sheet’s matrix has it, %s', async (_, printer) => {
    const { file, layout, part } = await printed(printer);
    const off = distanceToLine(part);
    layout.sheets.forEach((sheet, i) => {
      const page = String(i + 2);
      const svg = run('pdftocairo', ['-svg', '-f', page, '-l', page, file, '-']);
      // The finished line is 0.35 mm wide: 0.992126 points.
      const points = pathPoints(svg, '0.992126').map((at) => transformPoint(invert(pageMatrix(sheet)), at));
      const onLine = points.filter(({ x, y }) => x > -1 && x < 864 && y > -1 && y < 100 && off({ x, y }) < 1);
      expect(onLine.length).toBeGreaterThan(4);
      for (const at of onLine) expect(off(at)).toBeLessThan(READ_MM);
    });
  });

  test('reads what is written and who made it', async () => {
    const { file, layout } = await printed();
    const info = run('pdfinfo', [file]);
    expect(info).toMatch(/Producer: +fairlath/);
    expect(info).toContain(layout.code);
    expect(readFileSync(file).length).toBeGreaterThan(0);
  });
});
