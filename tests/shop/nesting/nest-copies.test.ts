import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import {
  cachedSeparation,
  minSeparation,
  OUTLINE_TOLERANCE_MM,
  silhouetteOf,
} from '../../../src/shop/nesting/min-separation.ts';
import { nest } from '../../../src/shop/nesting/nest-copies.ts';
import { boxedColumns, columnLayout, copiesOn } from '../../../src/shop/nesting/nesting-layouts.ts';
import { type Footprint, footprintOf } from '../../../src/shop/stock/footprint.ts';
import { Fault } from '../../../src/units/fault.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { block, gentlePart } from '../../tiling/parts.ts';
import { isWithin, KERF, mustKeepApart, nearest, placesOn, wishFor } from '../laid.ts';

/** A rail between two like arcs of 90 mm rise over 1000 mm, one 60 mm above the other. */
const RAIL = `part: Rail
units: mm
edges:
  under:
    - from: [0, 0]
    - arc: [1000, 0]
      rise: 90
  over:
    - from: [0, 60]
    - arc: [1000, 60]
      rise: 90
`;

describe('the pitch of copies', () => {
  test('rectangles have a pitch of their width and the kerf', () => {
    const part = block(300, 40);
    const { pitch, rectangles, way } = nest(footprintOf(part, 0), wishFor(part));
    expect([pitch, rectangles.pitch, way]).toEqual([43, 43, 'same']);
  });

  test('arched rails nest with the kerf between a corner and the arc below', () => {
    const part = partOf(RAIL);
    // R = c²/8h + h/2; the upper rail's corner, s above the arc it stands on, is R + kerf from that arc's centre:
    // s² + 2Rs·cos φ = 2R·kerf + kerf², φ half the arc's angle. By hand.
    const radius = 1000 ** 2 / 720 + 45;
    const cos = (radius - 90) / radius;
    const s = -radius * cos + Math.sqrt((radius * cos) ** 2 + 2 * radius * KERF + KERF ** 2);
    const footprint = footprintOf(part, 0);
    const sides = silhouetteOf(footprint.paths);
    const lift = minSeparation(sides, sides, 0, KERF);
    expect(lift).toBeGreaterThanOrEqual(60 + s - 1e-9);
    expect(lift).toBeLessThan(60 + s + (4 * OUTLINE_TOLERANCE_MM) / cos);
  });

  test.each(['wall-shelf-bracket.yaml', 'hall-bench-leg.yaml'])(
    'the separation of %s is what a search in steps of 0.05 mm finds, at any shift',
    (name) => {
      const { paths, length } = footprintOf(samplePart(name), 0);
      const sides = silhouetteOf(paths);
      const own = placesOn(paths, length / 250);
      for (const shift of [-70, 0, 41]) {
        const lift = minSeparation(sides, sides, shift, KERF);
        const clearAt = (y: number): boolean =>
          nearest(
            own.map((p) => point(p.x + shift, p.y + y)),
            own,
          ) >= KERF;
        // Clear where it says, and 0.05 mm nearer no more: places 1 to 4 mm apart show it to some hundredths.
        expect(clearAt(lift + 0.02)).toBe(true);
        expect(clearAt(lift - 0.05)).toBe(false);
      }
    },
  );

  test('the best shift is found within the room of the board', () => {
    const part = samplePart('wall-shelf-bracket.yaml');
    const footprint = footprintOf(part, 0);
    const sides = silhouetteOf(footprint.paths);
    const board = { length: footprint.length + 60 };
    const { ways } = nest(footprint, wishFor(part, { board }));
    const searched = Array.from({ length: 241 }, (_, i) => minSeparation(sides, sides, i / 2 - 60, KERF));
    const same = ways.find(({ way }) => way === 'same')!;
    expect(same.pitch).toBeLessThanOrEqual(Math.min(...searched) + 0.05);
    expect(same.pitch).toBeLessThan(minSeparation(sides, sides, 0, KERF) - 5);
  });

  test('a larger gap gives a larger pitch, and no gap still keeps copies apart', () => {
    const part = samplePart('garden-arch-rail.yaml');
    const pitch = (between: number): number =>
      nest(footprintOf(part, 0), wishFor(part, { kerf: 0, between })).pitch;
    expect(pitch(5)).toBeGreaterThan(pitch(0));
    mustKeepApart(part, nest(footprintOf(part, 0), wishFor(part, { kerf: 0 })));
  });
});

describe('nest on boards', () => {
  test('blocks are counted as on squared paper', () => {
    const part = block(100, 20);
    // 3 × 20 + 2 × 3 = 66 of 70 across, 3 × 100 + 2 × 3 = 306 of 330 along: 9 a board, 25 on three.
    const board = { length: 330, width: 70 };
    const {
      across,
      along: columns,
      perBoard,
      boards,
      yield: share,
      copiesOn,
    } = nest(footprintOf(part, 0), wishFor(part, { quantity: 25, board }));
    expect({
      across,
      columns,
      perBoard,
      boards,
      copies: [1, 2, 3, 4].map((n) => copiesOn(n).length),
    }).toEqual({
      across: 3,
      columns: 3,
      perBoard: 9,
      boards: 3,
      copies: [9, 9, 7, 0],
    });
    expect(share).toBeCloseTo((9 * 2000) / (330 * 70), 12);
  });

  test('a board that just fits the copies takes them', () => {
    const part = block(100, 20);
    const board = { length: 100, width: 66 };
    expect(nest(footprintOf(part, 0), wishFor(part, { board })).across).toBe(3);
    expect(nest(footprintOf(part, 0), wishFor(part, { board: { length: 100, width: 65.9 } })).across).toBe(2);
  });

  test.each(['wall-shelf-bracket.yaml', 'hall-bench-leg.yaml', 'garden-arch-rail.yaml'])(
    'copies of %s keep the kerf apart on any board',
    (name) => {
      const part = samplePart(name);
      for (const grain of [0, 0.1]) {
        const footprint = footprintOf(part, grain);
        const board = { length: footprint.length * 1.45, width: footprint.width * 2.2 };
        mustKeepApart(part, nest(footprint, wishFor(part, { quantity: 4, board })));
        mustKeepApart(part, nest(footprint, wishFor(part, { quantity: 3 })));
      }
    },
  );

  test('property: gentle parts keep apart and never take more room than rectangles', () => {
    fc.assert(
      fc.property(
        gentlePart().filter(({ shape }) => shape.type === 'closed'),
        fc.double({ min: 1, max: 3.2, noNaN: true }),
        fc.double({ min: 2, max: 4, noNaN: true }),
        fc.boolean(),
        fc.boolean(),
        (part, room, rows, handed, mirrored) => {
          const footprint = footprintOf(part, 0);
          const board = { length: footprint.length * room, width: footprint.width * rows };
          const nesting = nest(footprint, wishFor(part, { quantity: 4, handed, mirrored, board }));
          mustKeepApart(part, nesting);
          expect(nesting.perBoard).toBeGreaterThanOrEqual(nesting.rectangles.perBoard);
          expect(nesting.pitch).toBeLessThanOrEqual(nesting.rectangles.pitch + 1e-9);
        },
      ),
      { numRuns: 12 },
    );
  });

  test('columns of mirrored copies nest only where the number across is even', () => {
    // Shifted along, four go across; not shifted, three, and every other column is of the other hand.
    const part = partOf(`part: Rail
units: mm
edges:
  under:
    - from: [0, 0]
    - batten: [3284, 8.2]
      through: [[821, 2.1], [1642, 4.3], [2463, 6.3]]
  over:
    - from: [0, 1413.1]
    - bow: [3284, 1408.1]
      rise: -7.6
allowance: {saw: 6}
`);
    const board = { length: 10_190, width: 6910 };
    const wish = wishFor(part, { quantity: 6, handed: true, mirrored: true, kerf: 0.76, board });
    mustKeepApart(part, nest(footprintOf(part, 0.1362), wish));
  });

  test.each(['over', 'over-end'] as const)(
    'an odd number of mirrored copies across, laid %s and shifted, alternates hands on its board',
    (way) => {
      const part = samplePart('wall-shelf-bracket.yaml');
      const footprint = footprintOf(part, 0);
      const board = { length: footprint.length * 2 + 60, width: footprint.width * 3 };
      const wish = wishFor(part, { quantity: 6, handed: true, mirrored: true, board });
      const ground = { footprint, options: wish, gap: KERF, separation: cachedSeparation(footprint, KERF) };
      const layout = columnLayout(way, boxedColumns(footprint, board.length, KERF), ground);
      const { across, boards } = layout.figures;
      expect([across % 2, new Set(layout.column(0).map(({ x }) => x)).size]).toEqual([1, 2]);
      const laidOut = { board, gap: KERF, boards, copiesOn: (n: number) => copiesOn(n, layout, ground) };
      mustKeepApart(part, laidOut);
      const over = laidOut.copiesOn(1).filter((copy) => copy.over);
      expect(over).toHaveLength(3);
    },
  );

  test('a handed part is not turned over, and half of mirrored ones are', () => {
    const part = samplePart('hall-bench-leg.yaml');
    const footprint = footprintOf(part, 0);
    const board = { length: 1900, width: 300 };
    const identical = nest(footprint, wishFor(part, { quantity: 6, handed: true, board }));
    expect(identical.ways.map(({ way }) => way)).toEqual(['same', 'turned']);
    expect(identical.copiesOn(1).filter(({ over }) => over)).toEqual([]);
    const mirrored = nest(footprint, wishFor(part, { quantity: 6, handed: true, mirrored: true, board }));
    expect(mirrored.across % 2).toBe(1);
    expect(
      mirrored
        .copiesOn(1)
        .map(({ over }) => over)
        .sort(),
    ).toEqual([false, false, false, true, true, true]);
    mustKeepApart(part, mirrored);
  });

  test('a slanting end keeps the kerf on the other face, too', () => {
    const slant = (ends: string): Footprint =>
      footprintOf(
        partOf(`part: Leg
units: mm
stock: {thickness: 40}
edges:
  front:
    - from: [0, 0]
    - line: [500, 0]
  back:
    - from: [0, 60]
    - line: [500, 60]
${ends}`),
        0,
      );
    // Edges are set out to the long points: 500 over all whichever face they are on.
    for (const bevel of ['20', '-20'])
      expect(slant(`ends: {right: {bevel: ${bevel}}}\n`).length).toBeCloseTo(500, 9);
  });

  test.each([0, 2])('the footprint holds all of the wood of a leaning end: bent edges, saw %d', (saw) => {
    const part = partOf(`part: Leg
units: mm
stock: {thickness: 60}
edges:
  front:
    - from: [0, 0]
    - arc: [600, 20]
      rise: -60
  back:
    - from: [0, 60]
    - arc: [600, 90]
      rise: 200
ends: {left: {rake: 5, splay: -25}, right: {rake: -6, splay: 30}}
allowance: {saw: ${saw}}
`);
    const footprint = footprintOf(part, 0);
    const around = footprint.paths.map((path) => placesOn([path], 0.5));
    // An edge runs alike through the wood, and an end as far as either of its cut lines: places on both, seen from above.
    const { ends, edges } = part;
    const places = edges.flatMap(({ runs }) => placesOn([runs.flatMap(({ path }) => path)], 2));
    let [counted, beyond] = [0, Number.NEGATIVE_INFINITY];
    for (const place of places) {
      const lies = ends!.every(({ side, face, back }) =>
        [face, back].some(([low, high]) => {
          const x = low.x + ((high.x - low.x) * (place.y - low.y)) / (high.y - low.y);
          return side === 'right' ? place.x <= x - 0.01 : place.x >= x + 0.01;
        }),
      );
      if (!lies) continue;
      counted++;
      const at = transformPoint(footprint.toBoard, place);
      const depths = around.map((path) => nearest([at], path) * (isWithin(path, at) ? 1 : -1));
      beyond = Math.max(beyond, saw - Math.max(...depths));
    }
    expect(counted).toBeGreaterThan(500);
    expect(beyond).toBeLessThan(0.01);
  });

  test.each([
    ['nesting.too-short', '--board-length', { board: { length: 99, width: 50 } }],
    ['nesting.too-narrow', '--board-width', { board: { length: 500, width: 19 } }],
    ['nesting.kerf', '--kerf', { kerf: 30 }],
    ['nesting.between', '--between', { between: 400 }],
  ])('what cannot be laid gives the fault %s', (code, key, wish) => {
    const part = block(100, 20);
    try {
      nest(footprintOf(part, 0), wishFor(part, wish));
      expect.unreachable();
    } catch (fault) {
      expect(fault).toBeInstanceOf(Fault);
      expect(fault).toMatchObject({ code, key });
    }
  });
});
