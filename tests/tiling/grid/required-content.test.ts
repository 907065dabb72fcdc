import { describe, expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import { add, type Point, point } from '../../../src/curves/geometry/point.ts';
import { endStrips } from '../../../src/part/ends/fold-tabs.ts';
import type { Layout } from '../../../src/tiling/layout.ts';
import { layOutMirrored } from '../../../src/tiling/mirrored-layout.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { leg } from '../../export/joinery.ts';
import { partOf } from '../../part/jobs.ts';

const OPTIONS = { paper: parsePaper('a4'), margin: 12.7, overlap: 15, turn: 'auto' as const };

const panel = (joints: string) =>
  partOf(
    `part: Bench end\nunits: mm\nedges:\n  low:\n    - from: [0, 0]\n    - line: [900, 0]\n` +
      `  high:\n    - from: [0, 900]\n    - line: [900, 900]\n${joints}`,
  );

/** Whether some sheet shows a place of the part. */
const isShown = ({ sheets }: Layout, at: Point): boolean =>
  sheets.some(({ toSheet, window }) => {
    const { x, y } = transformPoint(toSheet, at);
    return x >= window.left && x <= window.right && y >= window.bottom && y <= window.top;
  });

/** How many sheets hang together with the first by seams. */
function joined({ sheets }: Layout): number {
  const reached = new Set([sheets[0].name]);
  for (const name of reached)
    for (const next of Object.values(sheets.find((sheet) => sheet.name === name)!.neighbours))
      reached.add(next);
  return reached.size;
}

describe('what must be on paper beside the lines to cut', () => {
  const middle = point(450, 450);

  test('the middle of a wide part has no sheet of its own while nothing stands there', () => {
    expect(isShown(layOut(panel(''), OPTIONS), middle)).toBe(false);
  });

  test.each([
    ['a hole', 'joints:\n  - hole: {at: 450, out: 450, diameter: 12}\n'],
    ['a mark', 'joints:\n  - mark: {at: 450, out: 450, label: here}\n'],
  ])('%s in the middle has one, and all sheets still hang together', (_, joints) => {
    const layout = layOut(panel(joints), OPTIONS);
    expect(isShown(layout, middle)).toBe(true);
    expect(joined(layout)).toBe(layout.sheets.length);
  });

  test.each([
    ['the pattern', layOut],
    ['its mirror image', layOutMirrored],
  ])('every corner of every strip to fold is on %s', (_, lay) => {
    const part = leg();
    for (const paper of ['letter', 'a4', '160x200mm']) {
      const layout = lay(part, { ...OPTIONS, paper: parsePaper(paper) });
      for (const { outline } of endStrips(part))
        for (const corner of outline) expect(isShown(layout, corner)).toBe(true);
    }
  });
});

test('a seam keeps a hand’s work away from a joint where there is room', () => {
  // Three sheets of A4 lying on their side reach 3 · 271.6 − 2 · 15 = 784.8 mm: there is room to shift by 90 mm.
  const rail = (joints: string) =>
    partOf(
      `part: Rail\nunits: mm\nedges:\n  low:\n    - from: [0, 0]\n    - line: [600, 0]\n` +
        `  high:\n    - from: [0, 60]\n    - line: [600, 60]\n${joints}`,
    );
  const seams = ({ sheets }: Layout): number[] =>
    sheets.filter(({ neighbours }) => neighbours.left).map(({ cell, toSheet }) => cell.left - toSheet[4]);
  const options = { ...OPTIONS, turn: 0 };
  const plain = seams(layOut(rail(''), options))[0]!;
  const moved = layOut(
    rail(`joints:\n  - hole: {at: ${Math.round(plain)}, out: 30, diameter: 8}\n`),
    options,
  );
  for (const seam of seams(moved)) expect(Math.abs(seam - Math.round(plain))).toBeGreaterThanOrEqual(30);
});

test('turned over, the part lies on paper as its mirror image', () => {
  const [first, mirrored] = [layOut(leg(), OPTIONS), layOutMirrored(leg(), OPTIONS)];
  const [a, b, c] = [point(0, 0), point(100, 0), point(0, 50)];
  const turnOf = ({ sheets: [{ toSheet }] }: Layout): number => {
    const [p, q, r] = [a, b, c].map((at) => transformPoint(toSheet, at)) as [Point, Point, Point];
    const [u, v] = [add(q, point(-p.x, -p.y)), add(r, point(-p.x, -p.y))];
    return Math.sign(u.x * v.y - u.y * v.x);
  };
  expect([turnOf(first), turnOf(mirrored)]).toEqual([1, -1]);
});
