import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { Segment } from '../../../src/curves/geometry/pieces/piece.ts';
import { direction, type Point, point } from '../../../src/curves/geometry/point.ts';
import { reversePath, transformSegment } from '../../../src/curves/geometry/transform.ts';
import { faceOf, volumeOf } from '../../../src/part/outline/area-and-volume.ts';
import { finishedLine } from '../../../src/part/part-lines.ts';
import { partOf, samplePart } from '../jobs.ts';

/** Rounding over a few hundred Gauss points, as a share of what is summed. */
const ROUNDING = 1e-12;

/** The shoelace formula over chords of the path: an independent sum. */
function shoelace(path: readonly Segment[], chords: number): { area: number; centroid: Point } {
  const points = path.flatMap((segment) => {
    const at = paramCurve(segment);
    return Array.from({ length: chords }, (_, i) => at(i / chords));
  });
  let [area, x, y] = [0, 0, 0];
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    const z = p.x * q.y - q.x * p.y;
    area += z / 2;
    x += ((p.x + q.x) * z) / 6;
    y += ((p.y + q.y) * z) / 6;
  });
  return { area, centroid: point(x / area, y / area) };
}

describe('the face of a part', () => {
  test('a circle far out along the line has πr² and balances at its centre', () => {
    const centre = point(9000, -40);
    const { area, centroid } = faceOf([{ type: 'arc', centre, radius: 25, start: 1, sweep: 2 * Math.PI }]);
    expect(area / (Math.PI * 625)).toBeCloseTo(1, 12);
    expect(centroid.x).toBeCloseTo(9000, 9);
    expect(centroid.y).toBeCloseTo(-40, 9);
  });

  test('a half round balances 4r/3π off its straight side', () => {
    // Centroid of a semicircle, 4r/(3π): a closed form of every mechanics handbook.
    const r = 120;
    const { area, centroid } = faceOf([
      { type: 'line', from: point(-r, 0), to: point(r, 0) },
      { type: 'arc', centre: point(0, 0), radius: r, start: 0, sweep: Math.PI },
    ]);
    expect(area).toBeCloseTo((Math.PI * r * r) / 2, 8);
    expect(centroid.y).toBeCloseTo((4 * r) / (3 * Math.PI), 10);
  });

  test('a hump of one cubic, its handles straight over its ends, has 3/5 of its span times their height', () => {
    // y = 3h·u(1−u), x = L(3u² − 2u³): ∫ y dx = 18hL·∫u²(1−u)² du = 18hL/30, by hand.
    const [span, h] = [600, 40];
    const { area } = faceOf([
      { type: 'cubic', controls: [point(0, 0), point(0, h), point(span, h), point(span, 0)] },
      { type: 'line', from: point(span, 0), to: point(0, 0) },
    ]);
    expect(area).toBeCloseTo((3 / 5) * span * h, 8);
  });

  test('the way round and the place on the bench do not change it', () => {
    const path = finishedLine(samplePart('wall-shelf-bracket.yaml').shape);
    const face = faceOf(path);
    expect(faceOf(reversePath(path)).area).toBeCloseTo(face.area, 7);
    fc.assert(
      fc.property(
        fc.double({ min: -7, max: 7, noNaN: true }),
        fc.double({ min: -3000, max: 3000, noNaN: true }),
        (turn, shift) => {
          const { x: c, y: s } = direction(turn);
          const moved = faceOf(path.map((one) => transformSegment(one, [c, s, -s, c, shift, -shift])));
          const { x, y } = face.centroid;
          expect(Math.abs(moved.area / face.area - 1)).toBeLessThan(ROUNDING * 100);
          expect(moved.centroid.x).toBeCloseTo(c * x - s * y + shift, 7);
          expect(moved.centroid.y).toBeCloseTo(s * x + c * y - shift, 7);
        },
      ),
    );
  });

  test.each(['hall-bench-leg.yaml', 'garden-arch-rail.yaml', 'wall-shelf-bracket.yaml'])(
    '%s agrees with the shoelace formula over 2000 chords a segment',
    (name) => {
      const path = finishedLine(samplePart(name).shape);
      const [face, sum] = [faceOf(path), shoelace(path, 2000)];
      // A chord's sag is a share of 1/(8·2000²) of the bulge: 3e-8.
      expect(Math.abs(face.area / sum.area - 1)).toBeLessThan(1e-7);
      expect(face.centroid.x).toBeCloseTo(sum.centroid.x, 4);
      expect(face.centroid.y).toBeCloseTo(sum.centroid.y, 4);
    },
  );

  test('nothing has no area', () => {
    expect(faceOf([])).toEqual({ area: 0, centroid: point(0, 0) });
  });
});

const plank = (more: string): string => `part: Rail
units: mm
stock: {thickness: 30}
edges:
  under:
    - from: [0, 0]
    - line: [400, 0]
  over:
    - from: [0, 50]
    - line: [400, 50]
${more}`;

describe('the body of a part', () => {
  test('a plank is length times width times thickness', () => {
    const { volume, centroid } = volumeOf(partOf(plank('')))!;
    expect(volume).toBeCloseTo(400 * 50 * 30, 6);
    expect([centroid.x, centroid.y].map((v) => Number(v.toFixed(9)))).toEqual([200, 25]);
  });

  test('a tilted end takes half of what it is tilted by; the corners cut by hand', () => {
    // A bevel of 45° through 30 mm: a wedge of 30·30/2 over 50 mm of width is off one end, from face or back.
    for (const sign of ['', '-']) {
      const { volume, centroid } = volumeOf(partOf(plank(`ends: {right: {bevel: ${sign}45}}\n`)))!;
      expect(volume).toBeCloseTo(400 * 50 * 30 - (30 * 30 * 50) / 2, 6);
      // The wedge balances a third of its base from the end.
      expect(centroid.x).toBeCloseTo((600_000 * 200 - 22_500 * 390) / (600_000 - 22_500), 6);
    }
  });

  test('ends that lean alike leave what a parallelepiped has', () => {
    const { volume } = volumeOf(
      partOf(plank('ends: {left: {rake: 10, splay: 20}, right: {rake: 10, splay: 20}}\n')),
    )!;
    // Long point to long point 400; the lean over 50 mm of width and 30 mm of thickness goes off it once.
    const lean = Math.tan((10 * Math.PI) / 180) * 50 + Math.tan((20 * Math.PI) / 180) * 30;
    expect(volume).toBeCloseTo((400 - lean) * 50 * 30, 4);
  });

  test('a mortise, a stopped slot and a hole are not there', () => {
    const joints = `joints:
  - mortise: {at: 100, out: 25, length: 40, width: 10}
  - slot: {at: 200, out: 25, length: 40, width: 10, depth: 12}
  - hole: {at: 300, out: 25, diameter: 8}
`;
    const solid = volumeOf(partOf(plank(joints)))!;
    const slot = (30 * 10 + Math.PI * 25) * 12;
    expect(solid.volume).toBeCloseTo(600_000 - 40 * 10 * 30 - slot - Math.PI * 16 * 30, 6);
  });

  test('a leaning hole takes its round over the cosine of its lean, and balances half-way down it', () => {
    const hole = `joints:\n  - hole: {at: 200, out: 25, diameter: 8, lean: 40, toward: right}\n`;
    const { volume, centroid } = volumeOf(partOf(plank(hole)))!;
    const lean = (40 * Math.PI) / 180;
    // Cavalieri: at every depth the section along the face, the drill's own over cos 40°.
    const taken = (Math.PI * 16 * 30) / Math.cos(lean);
    expect(volume).toBeCloseTo(600_000 - taken, 6);
    expect(centroid.x).toBeCloseTo((600_000 * 200 - taken * (200 + 15 * Math.tan(lean))) / volume, 6);
  });

  test('a line pattern and unknown thickness have none', () => {
    expect(volumeOf(samplePart('hall-bench-stretcher.yaml'))).toBeUndefined();
    expect(volumeOf(partOf(plank('').replace('stock: {thickness: 30}\n', '')))).toBeUndefined();
  });
});
