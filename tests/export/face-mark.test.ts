import { expect, test } from 'vitest';
import { apply, inverse } from '../../src/curves/affine.ts';
import { hasFaceMark } from '../../src/export/face-mark.ts';
import { patternPages } from '../../src/export/patterns.ts';
import type { Part } from '../../src/part/part.ts';
import { layOut } from '../../src/tiling/lay-out.ts';
import { layOutMirrored } from '../../src/tiling/mirrored.ts';
import { parsePaper } from '../../src/tiling/paper.ts';
import { partOf, samplePart } from '../part/jobs.ts';
import { LEG, leg, rail } from './joinery.ts';
import { strokesOf } from './words-on.ts';

const OPTIONS = { paper: parsePaper('letter'), margin: 12.7, overlap: 15, turn: 'auto' as const };

/** The loops of the face marks back on the part: where each begins and where it ends. */
function loopsOn(part: Part, lay: typeof layOut) {
  const layout = lay(part, OPTIONS);
  return [...patternPages(part, layout, false).pages].flatMap(({ drawing }, i) => {
    const back = inverse(layout.sheets[i]!.toSheet);
    return strokesOf(drawing.items)
      .filter(({ style, path }) => style === 'mark' && path[0]!.type === 'cubic')
      .map(({ path }) => {
        const controls = path.flatMap((segment) => (segment.type === 'cubic' ? segment.controls : []));
        return { from: apply(back, controls[0]!), to: apply(back, controls.at(-1)!) };
      });
  });
}

test('the loop stands on the face and its tail runs to the reference edge, on either pattern of a pair', () => {
  for (const lay of [layOut, layOutMirrored]) {
    const loops = loopsOn(leg(), lay);
    expect(loops.length).toBeGreaterThan(0);
    for (const { from, to } of loops) {
      // The front edge of the leg is the reference line itself.
      expect(Math.abs(from.y)).toBeLessThan(1e-9);
      expect(to.y).toBeGreaterThan(0);
    }
  }
});

test('parts that have no face of their own carry none', () => {
  expect(hasFaceMark(samplePart('hall-bench-leg.yaml'))).toBe(false);
  expect(hasFaceMark(rail())).toBe(true);
  expect(hasFaceMark(partOf(LEG.replace('pair: mirrored\n', '')))).toBe(true);
});
