import { expect, test } from 'vitest';
import { fullSize } from '../../../src/export/full-size/compose-full-size.ts';
import { writeDxf } from '../../../src/export/writers/dxf.ts';
import { partOf } from '../../part/jobs.ts';
import { placesOn } from '../drawn-line.ts';
import { readDxf } from '../read-dxf.ts';

const rail = partOf(`part: Rail
units: mm
edges:
  lower: [{from: [0, 0]}, {line: [400, 0]}]
  upper: [{from: [0, 80]}, {line: [400, 80]}]
joints:
  - hole: {at: 100, out: 40, diameter: 20}
  - mortise: {at: 250, out: 30, length: 50, width: 10, turn: 12}
  - center-line: {at: 200}
ends: {left: {miter: -10}, right: {miter: 10}}
`);

test('joints are drawn on a layer of their own, each closed and in its place; centre lines are marks', () => {
  const { lines } = readDxf(writeDxf(fullSize(rail), { unit: 'mm', splines: false }));
  const joints = lines.filter(({ layer }) => layer === 'joints');
  expect(joints.map(({ closed }) => closed)).toEqual([true, true]);
  const off = placesOn(joints[0]!.line, 40).map(({ x, y }) => Math.abs(Math.hypot(x - 100, y - 40) - 10));
  expect(Math.max(...off)).toBeLessThan(0.005);
  expect(lines.filter(({ layer }) => layer === 'marks').length).toBeGreaterThan(2);
});

test('an end cut at an angle is part of the outline', () => {
  const { lines } = readDxf(writeDxf(fullSize(rail, { only: ['cut'] }), { unit: 'mm', splines: false }));
  const corners = lines[0]!.line.map((at) => at(0));
  const lean = 80 * Math.tan((10 * Math.PI) / 180);
  for (const [x, y] of [
    [0, 0],
    [400, 0],
    [400 - lean, 80],
    [lean, 80],
  ] as const)
    expect(Math.min(...corners.map((at) => Math.hypot(at.x - x, at.y - y)))).toBeLessThan(1e-5);
});
