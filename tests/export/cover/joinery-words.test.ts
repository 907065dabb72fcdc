import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import { patternCover } from '../../../src/export/cover/cover-page.ts';
import { jointMeasures } from '../../../src/export/cover/joinery-words.ts';
import { dimensionsOf } from '../../../src/export/drawing/dimensions.ts';
import type { Page } from '../../../src/export/drawing/drawing.ts';
import { pairPages, patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import type { Part } from '../../../src/part/part.ts';
import { edgeCheckDistances } from '../../../src/tiling/check-crosses.ts';
import type { Layout } from '../../../src/tiling/layout.ts';
import { layOutMirrored } from '../../../src/tiling/mirrored-layout.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { Faults } from '../../../src/units/fault.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { LEG, leg, RAIL, rail } from '../joinery.ts';
import { boxOnSheet, moved, strokesOf, wordsFrame, wordsOf } from '../words-on.ts';

const optionsOn = (paper: string) => ({
  paper: parsePaper(paper),
  margin: 12.7,
  overlap: 15,
  turn: 'auto' as const,
});

const textOn = (pages: readonly Page[]): string =>
  pages.flatMap(({ drawing }) => wordsOf(drawing.items).map(({ text }) => text)).join(' ');

const coverText = (part: Part, layout: Layout, mirrored?: Layout): string =>
  textOn(patternCover(part, layout, dimensionsOf(part), undefined, mirrored));

/** A cover on one great page, so that no line is broken by a page. */
const coverOf = (part: Part): string => coverText(part, layOut(part, optionsOn('a3')));

/** No two words of a page run into each other. */
function expectApart({ drawing, name }: Page): void {
  const all = wordsOf(drawing.items);
  // A sheet's name has no letters that reach below its line.
  const boxes = all.map((one) => ({
    ...boxOnSheet(one),
    ...(one.text === name && { bottom: one.at.y }),
  }));
  boxes.forEach((a, i) => {
    boxes.slice(i + 1).forEach((b, k) => {
      const meet = a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
      expect(meet, `"${all[i]!.text}" and "${all[i + 1 + k]!.text}" on ${name}`).toBe(false);
    });
  });
}

/** No words stand on a joint, on the finished line or on a strip to fold. */
function expectOffLines({ drawing, name }: Page): void {
  const drawn = drawing.items.flatMap((item) => (item.type === 'clip' ? strokesOf(item.items) : []));
  const lines = drawn
    .filter(({ style }) => ['cut', 'saw', 'joint', 'axis', 'fold'].includes(style))
    .flatMap(({ path }) => flatten(path));
  for (const one of wordsOf(drawing.items)) {
    const { box, into } = wordsFrame(one);
    const inside = { ...box, bottom: Math.max(0, box.bottom) };
    expect(
      moved(lines, into).some((line) => segmentIntersectsBox(line, inside)),
      `"${one.text}" on ${name}`,
    ).toBe(false);
  }
}

describe('words on the sheets of a part with joints and tilted ends', () => {
  test.each(
    ['letter', '160x200mm'].flatMap((paper) =>
      [
        ['leg', leg],
        ['rail', rail],
      ].map(([name, part]) => [name, paper, part] as [string, string, () => Part]),
    ),
  )('%s on %s: clear of each other and of every line', (_, paper, make) => {
    const part = make();
    for (const lay of [layOut, layOutMirrored]) {
      const pages = [...patternPages(part, lay(part, optionsOn(paper)), false).pages];
      for (const page of pages) {
        expectApart(page);
        expectOffLines(page);
      }
    }
  });

  test('strips say that they are folded over the edge', () => {
    const text = textOn([...patternPages(leg(), layOut(leg(), optionsOn('letter')), false).pages]);
    expect(text.match(/fold over the edge(?! beside)/g)).toHaveLength(4);
  });
});

const angle = fc.double({ min: -30, max: 30, noNaN: true });
const end = fc.oneof(
  fc.constant('square'),
  fc
    .record({ rake: angle, splay: angle })
    .map(({ rake, splay }) => `{rake: ${rake.toFixed(3)}, splay: ${splay.toFixed(3)}}`),
  fc
    .record({ miter: angle, bevel: angle })
    .map(({ miter, bevel }) => `{miter: ${miter.toFixed(3)}, bevel: ${bevel.toFixed(3)}}`),
);
const place = fc
  .record({ at: fc.integer({ min: 60, max: 540 }), out: fc.integer({ min: 15, max: 75 }) })
  .map(({ at, out }) => `at: ${at}, out: ${out}`);
const joint = fc.oneof(
  place.map((at) => `mortise: {${at}, length: 24, width: 8, turn: 12, depth: 15}`),
  place.map((at) => `slot: {${at}, length: 18, width: 6}`),
  place.map((at) => `hole: {${at}, diameter: 9, depth: 12, lean: 5, toward: out, label: peg}`),
  place.map((at) => `mark: {${at}, label: here}`),
  fc.integer({ min: 10, max: 80 }).map((out) => `center-line: {out: ${out}}`),
);

test('property: whatever the ends and the joints, the pattern, its mirror image and their covers are drawn', () => {
  fc.assert(
    fc.property(
      end,
      end,
      fc.array(joint, { maxLength: 5 }),
      fc.constantFrom('a4', '160x200mm'),
      (left, right, joints, paper) => {
        const part = made(
          `part: Any\nunits: mm\npair: mirrored\nstock: {thickness: 25}\nedges:\n  low:\n    - from: [0, 0]\n    - line: [600, 5]\n` +
            `  high:\n    - from: [0, 90]\n    - arc: [600, 95]\n      rise: 20\n` +
            `ends: {left: ${left}, right: ${right}}\nallowance: {saw: 2}\n` +
            (joints.length > 0 ? `joints:\n${joints.map((one) => `  - ${one}\n`).join('')}` : ''),
        );
        fc.pre(part !== undefined);
        for (const lay of [layOut, layOutMirrored]) {
          const pages = [...patternPages(part!, lay(part!, optionsOn(paper)), true).pages];
          expect(pages.length).toBeGreaterThan(1);
          for (const page of pages) if (!page.name.includes('cover')) expectApart(page);
        }
      },
    ),
    { numRuns: 6 },
  );
});

/** Undefined where joints run into each other or over an edge. */
function made(text: string): Part | undefined {
  try {
    return partOf(text);
  } catch (error) {
    if (error instanceof Faults) return undefined;
    throw error;
  }
}

describe('the cover', () => {
  test('tells each end by the saw, as a stance, and by its long and its short point', () => {
    const text = coverOf(leg());
    // tan² 6° + tan² 4° under the root: atan 0.12620 = 7.2°; atan(tan 4° ÷ tan 6°) = 33.6°, by hand.
    expect(text).toMatch(/left 6° 4° 6° 4° 7\.2° 33\.6°/);
    expect(text).toMatch(/Left end: long point at station 0, offset 1 5⁄8, on the reference face/);
    expect(text).toMatch(/Positive miter or rake: the cut is closer to the left end/);
    expect(text).toMatch(/Warning Follow the manual of your saw/);
  });

  test('draws the true shape of a beveled end with its measures', () => {
    // 1 5/8 in ÷ cos 6° = 1.634 in across the reference face, by hand; a mitered end is a plain rectangle.
    expect(coverOf(leg())).toMatch(/other face 1 21⁄32 reference face 1 5⁄8 full 1 3⁄4 1 3⁄4/);
    expect(coverOf(rail())).not.toContain('seen square');
  });

  test('gives the wedge of a hole that leans, and which end it raises', () => {
    // 12 in · tan 2° = 0.41905 in = 26.8⁄64 in; 300 mm · tan 5° = 26.25 mm, by hand.
    const text = coverOf(leg());
    expect(text).toMatch(
      /Hole 3, 2°: a rise of 27⁄64″ over 12″\. The hole leans toward the left end\. Raise the right end\./,
    );
    expect(text).toMatch(/Follow the manual of your drill press/);
    const metric = RAIL.concat('joints:\n  - hole: {at: 300, out: 45, diameter: 10, lean: 5, toward: out}\n');
    expect(coverOf(partOf(metric))).toMatch(
      /Hole 1, 5°: a rise of 26(\.5)? mm over 300 mm\. The hole leans away from the reference line\. Raise the reference edge\./,
    );
  });

  test('lists the joints by the numbers on the sheets', () => {
    expect(coverOf(leg())).toMatch(/1 16 1⁄2 1 1⁄2 mortise, seat rail: 2 1⁄2 × 3⁄8, 1 1⁄4 deep/);
  });

  test('of a part with square ends and no joints says nothing of either', () => {
    const text = coverOf(partOf(RAIL.replace(/ends:\n.*\n.*\n/, '')));
    for (const words of ['The ends', 'The joints', 'fold']) expect(text).not.toContain(words);
  });

  test('measures each edge between the corners of the face as it is cut', () => {
    // 640 − 2 · 90 mm along the upper edge of a rail mitred by 45°, by hand.
    expect(edgeCheckDistances(rail()).map(({ length }) => Math.round(length))).toEqual([640, 460]);
    expect(coverOf(rail())).toMatch(/640 mm ± \S+ mm lower/);
  });
});

describe('a pair', () => {
  test('of parts that are alike on both faces comes from one pattern, flipped', () => {
    expect(coverOf(rail())).toMatch(/For the mirrored part, flip the pattern over on its reference line\./);
  });

  test('with joints has a pattern for each hand and one cover for both', () => {
    const [layout, mirrored] = [layOut, layOutMirrored].map((lay) => lay(leg(), optionsOn('a3')));
    const { names } = pairPages(leg(), [layout!, mirrored!], true);
    expect(names).toEqual([
      'cover',
      ...[layout!, mirrored!].flatMap(({ sheets }) => sheets.map(({ name }) => name)),
    ]);
    const text = coverText(leg(), layout!, mirrored);
    expect(text).toMatch(/1 of 2 copies/);
    expect(text).toContain(`code ${mirrored!.code}`);
    for (const { name } of [mirrored!.sheets[0], mirrored!.sheets.at(-1)!]) expect(text).toContain(name);
  });

  test('of like parts comes from one pattern, the same face up', () => {
    expect(coverOf(partOf(LEG.replace('mirrored', 'identical')))).toMatch(
      /Make all 2 copies from this pattern/,
    );
  });
});

test('the cover of a leg that stands, and of its mirror image, is one page with the leg drawn on the floor', () => {
  const part = samplePart('hall-bench/leg.yaml');
  const options = { ...optionsOn('letter'), turn: 'auto' } as const;
  const [layout, mirrored] = [layOut(part, options), layOutMirrored(part, options)];
  const { names } = pairPages(part, [layout, mirrored], true);
  expect(names).toHaveLength(5);
  const text = coverText(part, layout, mirrored);
  for (const words of [
    'From the front',
    'From the side',
    'floor',
    '1 3⁄16″',
    '1 25⁄32″ full',
    'outside the top',
  ])
    expect(text).toContain(words);
});

test('a joint is told from the reference end and the reference line', () => {
  const words = leg().joints.map((joint) =>
    jointMeasures(joint, (mm) => `${Number((mm / 25.4).toFixed(6))}`),
  );
  expect(words.slice(0, 3)).toEqual([
    'at 16.5, out 1.5: 2.5 × 0.375, 1.25 deep',
    'at 5, out 1: 2 × 0.375, 1 deep',
    'at 28, out 1.5: 0.375 across, 1 deep, tilted 2° toward the left end',
  ]);
});
