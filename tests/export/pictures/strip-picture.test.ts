import { describe, expect, test } from 'vitest';
import { type Box, pathBounds } from '../../../src/curves/geometry/bounds.ts';
import { flatten } from '../../../src/curves/geometry/flatten.ts';
import type { Point } from '../../../src/curves/geometry/point.ts';
import type { Drawing } from '../../../src/export/drawing/drawing.ts';
import { CAP_HEIGHT } from '../../../src/export/drawing/text-width.ts';
import { composeStripPicture } from '../../../src/export/pictures/strip-picture.ts';
import type { Part } from '../../../src/part/part.ts';
import { adviseStrips, type RunsAdvice } from '../../../src/shop/strip/part-strips.ts';
import { chooseStripSpecies } from '../../../src/shop/wood/find-species.ts';
import { safetyNote, signalled } from '../../../src/shop/words/safety.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { expectOnPicture } from '../on-picture.ts';
import { crosses, strokesOf, wordsOf } from '../words-on.ts';

const LONG = `part: Hall bench back rail, the long one, with a tapered strip and one that is held
units: mm
edges:
  top:
    - from: [0, 40]
    - line: [150, 40]
    - batten: [900, 60]
      through: [[400, 120], [650, 130]]
      ends: [held, free]
    - arc: [1100, 40]
      rise: 12
  low:
    - from: [0, 0]
    - batten: [1100, 0]
      through: [400, 25]
      strip: {from: 12, to: 3}
`;

/** What can hurt or spoil with any strip. */
const CAUTIONS = (['strip.spring', 'strip.grain', 'strip.creep'] as const).map((id) =>
  signalled(safetyNote(id)),
);

const PARTS: readonly (readonly [name: string, part: Part, nails: number])[] = [
  ['the leg', samplePart('hall-bench-leg.yaml'), 3],
  ['the arch rail', samplePart('garden-arch-rail.yaml'), 6],
  ['a rail with a held end', partOf(LONG), 7],
];

const middleOf = ({ left, right, bottom, top }: Box): Point => ({
  x: (left + right) / 2,
  y: (bottom + top) / 2,
});

const runsOf = (part: Part): RunsAdvice =>
  adviseStrips(part, { species: chooseStripSpecies(undefined, part.stock?.species), rule: part.rule });

const pictureOf = (part: Part): Drawing => composeStripPicture(part, runsOf(part));

describe.each(PARTS)('the strip of %s', (_, part, nails) => {
  const picture = pictureOf(part);

  test('stays on its page with all its words', () => {
    expectOnPicture(picture);
  });

  test('has a number beside every nail, and a line of words for each number', () => {
    const numbers = wordsOf(picture.items).filter(({ anchor }) => anchor === 'middle');
    const expected = Array.from({ length: nails }, (_, i) => String(i + 1));
    expect(numbers.map(({ text }) => text)).toEqual(expected);
    const said = wordsOf(picture.items).flatMap(({ text }) => /^(\d+)\. station/.exec(text)?.[1] ?? []);
    expect(said).toEqual(expected);
    const drawn = strokesOf(picture.items).filter(({ filled }) => filled);
    expect(drawn.length).toBeGreaterThanOrEqual(nails);
    for (const { at, text } of numbers) {
      const nearest = Math.min(
        ...drawn.map(({ path }) => {
          const { left, right, bottom, top } = pathBounds(path);
          return Math.hypot((left + right) / 2 - at.x, (bottom + top) / 2 - at.y);
        }),
      );
      expect(nearest, text).toBeLessThan(12);
    }
  });

  test("has each number on its nail's side of the strip", () => {
    const faces = strokesOf(picture.items).filter(({ style, filled }) => style === 'mark' && !filled);
    const line = flatten(faces.flatMap(({ path }) => path));
    let rings: Point[] = [];
    for (const item of picture.items) {
      if (item.type === 'stroke' && item.filled) rings.push(middleOf(pathBounds(item.path)));
      else if (item.type === 'words') {
        const middle = { x: item.at.x, y: item.at.y + (item.size * CAP_HEIGHT) / 2 };
        const isAcross = (to: Point): boolean => line.some((one) => crosses(one, { from: middle, to }));
        if (rings.length > 0)
          expect(
            rings.some((nail) => !isAcross(nail)),
            item.text,
          ).toBe(true);
        rings = [];
      }
    }
  });

  test('tells how to hold, choose and release the strip', () => {
    const text = wordsOf(picture.items)
      .map((each) => each.text)
      .join(' ');
    for (const words of CAUTIONS) expect(text).toContain(words);
    const isTapered = runsOf(part).some(({ advice }) => advice.tapered);
    expect(text.includes(signalled(safetyNote('strip.taper')))).toBe(isTapered);
  });
});

test('a part without a batten is refused', () => {
  expect(() => pictureOf(samplePart('wall-shelf-bracket.yaml'))).toThrow(
    expect.objectContaining({ code: 'strip.no-nails' }),
  );
});
