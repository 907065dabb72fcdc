import fc from 'fast-check';
import { expect, test } from 'vitest';
import { endLean } from '../../../src/part/ends/end-lean.ts';
import { longAndShortPoints } from '../../../src/part/ends/end-planes.ts';
import type { Part } from '../../../src/part/part.ts';
import { partOf, samplePart } from '../jobs.ts';

const bar = (left: string, right: string): Part =>
  partOf(`part: Bar
units: mm
stock: {thickness: 40}
edges:
  near: [{from: [0, 0]}, {line: [500, 0]}]
  far: [{from: [0, 60]}, {line: [500, 60]}]
ends: {left: ${left}, right: ${right}}
`);
const angle = fc.integer({ min: 1, max: 20 }).chain((size) => fc.constantFrom(size, -size));

test('the long point is the same by miter and bevel as by rake and splay', () => {
  fc.assert(
    fc.property(angle, angle, fc.boolean(), (across, through, isStance) => {
      const end = isStance ? `{rake: ${across}, splay: ${through}}` : `{miter: ${across}, bevel: ${through}}`;
      const part = bar(end, end);
      for (const each of part.ends!) {
        const { long, short } = longAndShortPoints(each);
        const side = ({ y, on }: typeof long) => ({ edge: y < 30 ? 'near' : 'far', on });
        expect(endLean(each, part)).toEqual({ longAt: side(long), leansTowards: side(short) });
      }
    }),
  );
});

test('stood on an end, the other end is plumb over a place on the side that is named', () => {
  fc.assert(
    fc.property(angle, angle, (rake, splay) => {
      const part = bar(`{rake: ${rake}, splay: ${splay}}`, `{rake: ${rake}, splay: ${splay}}`);
      for (const end of part.ends!) {
        // The floor through three corners of the end; what stands on it, less what is plumb, leans.
        const [[low, high], [back]] = [end.face, end.back];
        const [a, b] = [
          [high.x - low.x, high.y - low.y, 0],
          [back.x - low.x, back.y - low.y, -40],
        ] as const;
        const floor = [a[1] * b[2], -a[0] * b[2], a[0] * b[1] - a[1] * b[0]] as const;
        const square = floor[0] ** 2 + floor[1] ** 2 + floor[2] ** 2;
        const up = end.side === 'left' ? 1 : -1;
        // The part's length, up from this end, along the floor: across the part and out of the marked face.
        const [across, out] = [(-up * floor[0] * floor[1]) / square, (-up * floor[0] * floor[2]) / square];
        expect(endLean(end, part).leansTowards).toEqual({
          edge: across > 0 ? 'far' : 'near',
          on: out > 0 ? 'face' : 'back',
        });
      }
    }),
  );
});

test('a square cut, and one that is square through, name no side', () => {
  const [left, right] = bar('square', '{miter: 5}').ends!;
  const part = bar('square', '{miter: 5}');
  expect(endLean(left, part)).toEqual({ longAt: {}, leansTowards: {} });
  expect(endLean(right, part)).toEqual({ longAt: { edge: 'near' }, leansTowards: { edge: 'far' } });
});

test('the foot of the bench’s leg is out at the outer edge and behind the marked face', () => {
  const part = samplePart('hall-bench/leg.yaml');
  expect(endLean(part.ends![0], part).longAt).toEqual({ edge: 'outer', on: 'back' });
});
