import { describe, expect, test } from 'vitest';
import { rotate, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { flatten } from '../../../src/curves/geometry/flatten.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import type { Part, PartEdge } from '../../../src/part/part.ts';
import { columnSpacing, rowSpacing, type SheetFrame, sheetFrame } from '../../../src/tiling/grid/grid.ts';
import { linesToCut } from '../../../src/tiling/grid/lines-to-tile.ts';
import { countSheets, spansByRow, turnChords } from '../../../src/tiling/grid/row-spans.ts';
import type { Layout } from '../../../src/tiling/layout.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { partOf } from '../../part/jobs.ts';
import { archTop, backLeg, block, shelfFront } from '../parts.ts';

const MARGINS = { margin: 12.7, overlap: 15 };

const laid = (part: Part, paper: string, turn: 'auto' | number = 'auto'): Layout =>
  layOut(part, { paper: parsePaper(paper), ...MARGINS, turn });

/** A line through some points, in place of a part's own. */
function bent(...at: readonly [number, number][]): Part {
  const corners = at.map(([x, y]) => point(x, y));
  const line = corners.slice(1).map((to, i) => ({ type: 'line', from: corners[i]!, to }) as const);
  return {
    ...block(10, 10),
    edges: [] as readonly PartEdge[] as Part['edges'],
    shape: { type: 'line', line, chord: [corners[0]!, corners.at(-1)!] },
  };
}

describe('the sheets it saves', () => {
  test.each(['letter', 'a4'])('a 600 × 180 mm part on %s: 3 sheets instead of 4', (paper) => {
    // Margin 10, overlap 10, a pad of 1 mm. Letter: ⌈592 / 249.4⌉ = 3 lying, ⌈592 / 185.9⌉ = 4 upright.
    // A4: ⌈592 / 267⌉ = 3 lying, ⌈592 / 180⌉ = 4 upright. One row: 182 ≤ 195.9 and 190.
    const layout = layOut(block(600, 180), {
      paper: parsePaper(paper),
      margin: 10,
      overlap: 10,
      turn: 'auto',
    });
    expect(layout.sheets).toHaveLength(3);
    expect(layout.orientation).toBe('lying');
    expect(layout.turnDeg).toBe(0);
    expect(layout.plainSheets).toBe(4);
    expect(layout.lowerBound).toBe(3);
  });

  test('an arch on A3 is turned, for that saves a sheet', () => {
    const layout = laid(archTop(), 'a3');
    expect(layout.sheets.length).toBeLessThan(laid(archTop(), 'a3', 0).sheets.length);
    expect(layout.turnDeg).not.toBe(0);
    expect(layout.sheets.length).toBe(layout.lowerBound);
  });

  test('a brace that no whole degree saves a sheet of is turned by a quarter more', () => {
    const run = (y: number): string => `[{from: [0, ${y}]}, {line: [708.5, ${y - 204.25}]}]`;
    const brace = partOf(`part: Brace\nunits: mm\nedges: {lower: ${run(0)}, upper: ${run(47.5)}}\n`);
    for (const whole of [0, 4, 5, 6, 7, -5]) expect(laid(brace, 'letter', whole).sheets).toHaveLength(4);
    const { sheets, turnDeg } = laid(brace, 'letter');
    expect(sheets).toHaveLength(3);
    expect(turnDeg % 1).not.toBe(0);
  });

  test('a rod turns to lie on one sheet from corner to corner', () => {
    // 300 mm long, on a window of 190.5 × 254 mm, whose diagonal is 317.5 mm.
    const layout = laid(bent([0, 0], [300, 0]), 'letter');
    expect(layout.sheets).toHaveLength(1);
    expect(laid(bent([0, 0], [300, 0]), 'letter', 0).sheets).toHaveLength(2);
  });

  test.each([
    ['leg', backLeg()],
    ['shelf front', shelfFront()],
    ['block', block(420, 230)],
  ])('the %s is not turned where that saves none', (_, part) => {
    for (const paper of ['letter', 'a4']) {
      const layout = laid(part, paper);
      expect(layout.turnDeg).toBe(0);
      expect(layout.sheets).toHaveLength(laid(part, paper, 0).sheets.length);
    }
  });

  test('upright paper is taken where lying paper is no better', () => {
    expect(laid(block(150, 150), 'letter').orientation).toBe('upright');
  });

  test('a turn that is given is kept, and the grid still shifted', () => {
    const layout = laid(archTop(), 'a4', 30);
    expect(layout.turnDeg).toBe(30);
    expect(layout.sheets.length).toBeLessThanOrEqual(9);
  });
});

/** The fewest sheets over turns and shifts, all of them tried, finely and at odd values. */
function bruteForce(part: Part, paper: string, turnStep: number, shiftStep: number): number {
  const lines = flatten(linesToCut(part));
  let least = Number.POSITIVE_INFINITY;
  for (const orientation of ['upright', 'lying'] as const) {
    const frame = sheetFrame({ paper: parsePaper(paper), ...MARGINS }, orientation);
    for (let turn = -90 + turnStep / 3; turn < 90; turn += turnStep)
      least = Math.min(least, leastAt(lines, frame, turn, shiftStep));
  }
  return least;
}

function leastAt(lines: ReturnType<typeof flatten>, frame: SheetFrame, turn: number, step: number): number {
  const view = turnChords(lines, rotate(turn), []);
  const { left, right, bottom, top } = view.bounds;
  const [across, down] = [columnSpacing(frame), rowSpacing(frame)];
  const columns = Math.ceil((right - left) / across) + 1;
  const rows = Math.ceil((top - bottom) / down) + 1;
  let least = Number.POSITIVE_INFINITY;
  for (let y = 1; y < down; y += step) {
    const spread = spansByRow(view, frame, top + y, rows);
    for (let x = 1; x < across; x += step)
      least = Math.min(least, countSheets(spread, frame, left - x, columns));
  }
  return least;
}

describe('against every turn and shift tried one by one', () => {
  test.each([
    ['arch', archTop(), 'letter'],
    ['arch', archTop(), 'a3'],
    ['leg', backLeg(), 'a4'],
    ['shelf front', shelfFront(), 'letter'],
    ['block', block(420, 230), 'a4'],
    ['block', block(250, 250), 'letter'],
    ['angle', bent([0, 0], [400, 0], [400, 300]), 'letter'],
    ['zigzag', bent([0, 0], [250, 200], [500, 0], [750, 200]), 'a4'],
  ] as const)('the %s (%#) takes no more sheets', (_, part, paper) => {
    const layout = laid(part, paper);
    expect(layout.sheets.length).toBeLessThanOrEqual(bruteForce(part, paper, 0.83, 5.3));
  });
});

/** Where the seams stand, upright ones and level ones, mm on the part; for a part that is not turned. */
function seamsOf({ sheets }: Layout): { up: number[]; level: number[] } {
  const onPart = sheets.map(({ toSheet, cell, neighbours }) => ({
    x: cell.left - toSheet[4],
    y: cell.top - toSheet[5],
    neighbours,
  }));
  return {
    up: onPart.flatMap(({ x, neighbours }) => (neighbours.left ? [x] : [])),
    level: onPart.flatMap(({ y, neighbours }) => (neighbours.above ? [y] : [])),
  };
}

describe('where the seams lie', () => {
  test('none runs along a line', () => {
    // Two lying windows hold 472 mm with 21 mm to spare: a seam in the middle, at 235, would lie in the riser.
    const layout = laid(bent([0, 0], [235, 0], [235, 120], [470, 120]), 'letter', 0);
    expect(layout.sheets).toHaveLength(2);
    for (const x of seamsOf(layout).up) expect(Math.abs(x - 235)).toBeGreaterThan(1);
  });

  test('they keep away from apexes, pins, joins and ends where the paper allows', () => {
    // The apex of the shelf is at 350 mm, in the middle of four upright sheets.
    const layout = laid(shelfFront(), 'letter', 0);
    for (const x of seamsOf(layout).up)
      for (const mark of [0, 350, 700]) expect(Math.abs(x - mark)).toBeGreaterThan(29);
  });
});

describe('the lower bound', () => {
  test('one sheet reaches as far as its diagonal', () => {
    for (const length of [300, 317]) expect(laid(bent([0, 0], [length, 0]), 'letter').lowerBound).toBe(1);
    expect(laid(bent([0, 0], [320, 0]), 'letter').lowerBound).toBe(2);
  });

  test('it speaks of every turn, so a given one does not change it', () => {
    const bound = laid(archTop(), 'a4').lowerBound;
    for (const turn of [0, 20, 45, 90]) expect(laid(archTop(), 'a4', turn).lowerBound).toBe(bound);
  });

  test('no turn and shift goes below it', () => {
    for (const part of [archTop(), backLeg(), block(420, 230)])
      expect(bruteForce(part, 'a4', 2.9, 11)).toBeGreaterThanOrEqual(laid(part, 'a4').lowerBound);
  });
});

test('a corner of the part lies where the turn puts it', () => {
  const { sheets, turnDeg } = laid(archTop(), 'a3');
  const [a, b] = [point(0, 0), point(100, 0)].map((at) => transformPoint(sheets[0].toSheet, at));
  expect((Math.atan2(b!.y - a!.y, b!.x - a!.x) * 180) / Math.PI).toBeCloseTo(turnDeg, 9);
});
