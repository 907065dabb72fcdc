import fc from 'fast-check';
import { expect, test } from 'vitest';
import { invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { inflate, pathBounds } from '../../../src/curves/geometry/bounds.ts';
import { flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import { transformPath } from '../../../src/curves/geometry/transform.ts';
import type { Stroke } from '../../../src/export/drawing/drawing.ts';
import { hasFaceMark } from '../../../src/export/sheets/face-mark.ts';
import { patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import type { Part } from '../../../src/part/part.ts';
import { linesToCut } from '../../../src/tiling/grid/lines-to-tile.ts';
import { layOutMirrored } from '../../../src/tiling/mirrored-layout.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { LEG, leg, rail } from '../joinery.ts';
import { boxOnSheet, strokesOf, wordsOf } from '../words-on.ts';

const OPTIONS = { paper: parsePaper('letter'), margin: 12.7, overlap: 15, turn: 'auto' as const };

const isLoop = (stroke: Stroke | undefined): boolean =>
  stroke?.style === 'mark' && stroke.path[0]!.type === 'cubic';

/** The loops of the face marks back on the part: where each begins and where it ends. */
function loopsOn(part: Part, lay: typeof layOut) {
  const layout = lay(part, OPTIONS);
  return [...patternPages(part, layout, false).pages].flatMap(({ drawing }, i) => {
    const back = invert(layout.sheets[i]!.toSheet);
    return strokesOf(drawing.items)
      .filter(isLoop)
      .map(({ path }) => {
        const controls = path.flatMap((segment) => (segment.type === 'cubic' ? segment.controls : []));
        return { from: transformPoint(back, controls[0]!), to: transformPoint(back, controls.at(-1)!) };
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

test('on a crowded sheet they keep clear of every word', () => {
  const crowded = partOf(
    'part: Bracket\nunits: mm\nquantity: 4\npair: mirrored\nstock: {thickness: 22}\nedges:\n' +
      '  back:\n    - from: [0, 0]\n    - line: [30, 0]\n    - arc: [150, 60]\n      radius: -140\n' +
      '    - arc: [280, 150]\n      radius: 160\n  front:\n    - from: [0, 60]\n    - spline: [280, 190]\n' +
      '      through: [[70, 66], [140, 110], [210, 160]]\njoints:\n  - hole: {at: 15, out: 30, diameter: 6}\n' +
      '  - hole: {at: 30, out: 30, diameter: 6}\n  - slot: {at: 80, out: 50, length: 20, width: 6, turn: 30}\n',
  );
  let seen = 0;
  for (const lay of [layOut, layOutMirrored])
    for (const { drawing } of patternPages(
      crowded,
      lay(crowded, { ...OPTIONS, paper: parsePaper('a4') }),
      false,
    ).pages) {
      const marks = strokesOf(drawing.items);
      // The V comes right after its loop.
      const loops = marks.filter((_, i) => [i, i - 1].some((k) => isLoop(marks[k])));
      seen += loops.length;
      const places = loops.flatMap(({ path }) => flatten(path, 0.2).map(({ from }) => from));
      for (const each of wordsOf(drawing.items)) {
        const { left, right, bottom, top } = boxOnSheet(each);
        const covered = places.filter(({ x, y }) => x > left && x < right && y > bottom && y < top);
        expect({ text: each.text, covered }).toEqual({ text: each.text, covered: [] });
      }
    }
  expect(seen).toBeGreaterThanOrEqual(2);
});

/** A crest rail of the hall bench, a pair of them, with a tenon at either end. */
const crest = (tenon: number, below: number, above: number, rise: number) =>
  partOf(
    `part: Crest rail\nunits: mm\nquantity: 2\npair: mirrored\nstock: {thickness: 22}\nedges:\n  lower:\n    - from: [0, ${below}]\n` +
      `    - line: [${tenon}, ${below}]\n    - line: [${tenon}, 0]\n    - batten: [${900 - tenon}, 0]\n      through: [450, ${rise}]\n` +
      `    - line: [${900 - tenon}, ${below}]\n    - line: [900, ${below}]\n  upper:\n    - from: [0, ${100 - above}]\n` +
      `    - line: [${tenon}, ${100 - above}]\n    - line: [${tenon}, 100]\n    - batten: [${900 - tenon}, 100]\n      through: [450, ${100 + rise}]\n` +
      `    - line: [${900 - tenon}, ${100 - above}]\n    - line: [900, ${100 - above}]\nallowance: {saw: 1.5}\n`,
  );

const within = (min: number, max: number) => fc.integer({ min, max });

test('property: on a rail with tenons they touch no shoulder and no end, and stand between the shoulders', () => {
  fc.assert(
    fc.property(within(12, 50), within(3, 30), within(3, 30), within(5, 60), (tenon, below, above, rise) => {
      const part = crest(tenon, below, above, rise);
      const across = flatten(linesToCut(part)).filter(({ from, to }) => Math.abs(to.x - from.x) < 1e-6);
      for (const lay of [layOut, layOutMirrored]) {
        const layout = lay(part, OPTIONS);
        const pages = [...patternPages(part, layout, false).pages];
        const marks = pages.flatMap(({ drawing }, i) => {
          const strokes = strokesOf(drawing.items);
          const back = invert(layout.sheets[i]!.toSheet);
          return strokes
            .filter((_, k) => [k, k - 1].some((one) => isLoop(strokes[one])))
            .map(({ path }) => transformPath(path, back));
        });
        expect(marks.length).toBeGreaterThanOrEqual(4);
        for (const mark of marks)
          for (const { from, to } of flatten(mark, 0.1)) {
            const box = inflate(pathBounds([{ type: 'line', from, to }]), 0.7);
            expect(across.filter((line) => segmentIntersectsBox(line, box))).toEqual([]);
            expect(from.x).toBeGreaterThan(tenon);
            expect(from.x).toBeLessThan(900 - tenon);
          }
      }
    }),
    { numRuns: 12 },
  );
});
