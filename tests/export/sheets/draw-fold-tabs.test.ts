import { describe, expect, test } from 'vitest';
import { invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { dot, type Point, subtract } from '../../../src/curves/geometry/point.ts';
import { writePatternPdf } from '../../../src/export/writers/pdf.ts';
import { endStrips } from '../../../src/part/ends/fold-tabs.ts';
import { pageMatrix } from '../../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { partOf } from '../../part/jobs.ts';
import { fontBytes } from '../font.ts';
import { leg, rail } from '../joinery.ts';
import { looksLike } from '../printed-line.ts';
import { readPdf } from '../read-pdf.ts';

const IN = 25.4;
const RAKE = (6 * Math.PI) / 180;
const SPLAY = (4 * Math.PI) / 180;

/** Where a point in space lies off a plane square to the plumb line (1, tan rake, tan splay), mm along the part. */
const offPlane = (at: readonly [number, number, number], on: readonly [number, number, number]): number =>
  at[0] - on[0] + Math.tan(RAKE) * (at[1] - on[1]) + Math.tan(SPLAY) * (at[2] - on[2]);

describe('the strip beside a tilted end', () => {
  test('folded down over a straight edge carries the line on in the plane of the cut, as it is printed', async () => {
    const part = leg();
    const layout = layOut(part, { paper: parsePaper('a4'), margin: 12.7, overlap: 15, turn: 'auto' });
    const { pages } = await readPdf(await writePatternPdf(part, layout, { font: fontBytes(), cover: false }));
    const strips = layout.sheets.flatMap((sheet, i) => {
      const back = invert(pageMatrix(sheet));
      return pages[i]!.strokes.filter((stroke) => looksLike(stroke, 'cut'))
        .map(({ steps }) => steps.map(({ points }) => transformPoint(back, points.at(-1)!)))
        .filter((line) => Math.abs(line[0]!.y) < 0.01 && line.at(-1)!.y < -IN);
    });
    expect(strips.length).toBeGreaterThanOrEqual(2);
    for (const line of strips) {
      // On paper the front edge is y = 0 and the strip lies below it: folded, its y is the depth.
      const [corner] = line;
      for (const { x, y } of line)
        expect(Math.abs(offPlane([x, 0, y], [corner!.x, 0, 0]))).toBeLessThan(0.01);
      expect(line.at(-1)!.y).toBeCloseTo(-1.75 * IN, 2);
    }
    // The long points: 0 at the left, on the face of the back edge; 34 in at the right, on the back of the front.
    const xs = strips.map((line) => line.at(-1)!.x);
    expect(Math.max(...xs)).toBeCloseTo(34 * IN, 2);
    expect(Math.abs(offPlane([Math.min(...xs), 0, -1.75 * IN], [0, 1.625 * IN, 0]))).toBeLessThan(0.01);
  });

  test('bent round an edge that is part of a circle it does the same', () => {
    const [radius, middle, base] = [400, 150, 60];
    const part = partOf(
      `part: Bracket\nunits: mm\nstock: {thickness: 30}\nedges:\n  lower:\n    - from: [0, 0]\n    - line: [300, 0]\n` +
        `  upper:\n    - from: [0, ${base}]\n    - arc: [300, ${base}]\n      radius: ${radius}\n` +
        'ends:\n  right: {rake: 6, splay: 4}\n',
    );
    const strip = endStrips(part).find(({ fold }) => fold[0].y > 10)!;
    const centre = { x: middle, y: base - Math.sqrt(radius ** 2 - 150 ** 2) };
    const [corner, ...line] = strip.cut;
    const start = Math.atan2(corner.y - centre.y, corner.x - centre.x);
    const way = { x: Math.sin(start), y: -Math.cos(start) };
    const out = { x: Math.cos(start), y: Math.sin(start) };
    /** A point of the strip once it is laid round the edge: along it by its length, down it by its depth. */
    const bent = (at: Point): [number, number, number] => {
      const [along, depth] = [dot(subtract(at, corner), way), dot(subtract(at, corner), out)];
      const angle = start - along / radius;
      return [centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle), -depth];
    };
    const face: [number, number, number] = [corner.x, corner.y, 0];
    for (const at of line) expect(Math.abs(offPlane(bent(at), face))).toBeLessThan(1e-6);
    expect(bent(line.at(-1)!)[2]).toBeCloseTo(-30, 9);
  });

  test('stands on both edges of every tilted end, and nowhere else', () => {
    expect(endStrips(leg())).toHaveLength(4);
    expect(endStrips(rail())).toHaveLength(0);
  });
});
