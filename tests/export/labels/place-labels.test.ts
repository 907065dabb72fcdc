import { describe, expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import type { Box } from '../../../src/curves/geometry/bounds.ts';
import { type Chord, flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { cardPages } from '../../../src/export/card/compose-card.ts';
import { dimensionsOf, printedLength } from '../../../src/export/drawing/dimensions.ts';
import type { Item } from '../../../src/export/drawing/drawing.ts';
import { CAP_HEIGHT } from '../../../src/export/drawing/text-width.ts';
import { MAX_DISTANCE_WITHOUT_LEADER_MM } from '../../../src/export/labels/place-labels.ts';
import { composePicture } from '../../../src/export/pictures/part-picture.ts';
import { patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import { cornersOf } from '../../../src/part/landmarks.ts';
import type { Part } from '../../../src/part/part.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { LEG } from '../joinery.ts';
import { boxOnSheet, crosses, strokesOf, wordsOf } from '../words-on.ts';

const nails = (count: number, high: (share: number) => number): string =>
  Array.from(
    { length: count - 1 },
    (_, i) => `[${(600 * (i + 1)) / count}, ${high((i + 1) / count).toFixed(1)}]`,
  ).join(', ');
const hump = (base: number, rise: number) => (share: number) => base + rise * Math.sin(Math.PI * share);

const JOINTS = `joints:
  - slot: {at: 90, out: 45, length: 60, width: 8, depth: 10, label: shelf}
  - mortise: {at: 12, out: 40, length: 30, width: 8, turn: 80, depth: 20, label: left rail}
  - mortise: {at: 588, out: 40, length: 30, width: 8, turn: 80, depth: 20, label: right rail}
  - hole: {at: 300, out: 55, diameter: 10, lean: 10, toward: right, label: peg}
  - mark: {at: 200, label: seat line}
  - center-line: {at: 300}
`;
const head = (name: string): string =>
  `part: ${name}\nunits: mm\nstock: {thickness: 22}\nallowance: {saw: 1.5}\n`;

const CROWDED: [string, () => Part][] = [
  [
    'thirty nails',
    () =>
      partOf(
        `${head('Shelf front')}edges:\n  lower:\n    - from: [0, 0]\n    - line: [600, 0]\n  upper:\n    - from: [0, 60]\n` +
          `    - batten: [600, 60]\n      through: [${nails(30, hump(60, 18))}]\n`,
      ),
  ],
  [
    'both edges sprung, joints near the ends',
    () =>
      partOf(
        `${head('Shelf rail')}edges:\n  lower:\n    - from: [0, 10]\n    - batten: [600, 10]\n      through: [${nails(12, hump(10, 16))}]\n` +
          `  upper:\n    - from: [0, 70]\n    - batten: [600, 70]\n      through: [${nails(12, hump(70, 20))}]\n${JOINTS}`,
      ),
  ],
  [
    'a part of 120 mm',
    () =>
      partOf(
        `${head('Shelf peg')}edges:\n  lower:\n    - from: [0, 0]\n    - batten: [120, 0]\n      through: [[30, 4], [60, 6], [90, 4]]\n` +
          '  upper:\n    - from: [0, 30]\n    - line: [20, 30]\n    - batten: [100, 30]\n      apex: [60, 38]\n    - line: [120, 30]\n' +
          'ends: {right: {miter: 8, bevel: 6}}\njoints:\n  - hole: {at: 15, out: 15, diameter: 6, label: peg}\n' +
          '  - slot: {at: 60, out: 20, length: 30, width: 5, depth: 6, label: shelf}\n  - hole: {at: 105, out: 16, diameter: 6}\n',
      ),
  ],
  [
    'twelve joints along a leg',
    () =>
      partOf(
        LEG.replace(
          'allowance:',
          '  - hole: {at: 8, out: 1, diameter: 1/4}\n  - hole: {at: 8 1/2, out: 1 1/2, diameter: 1/4}\n' +
            '  - hole: {at: 9, out: 2, diameter: 1/4, depth: 1/2}\n  - hole: {at: 26, out: 1, diameter: 1/4}\nallowance:',
        ),
      ),
  ],
  ['the wall shelf bracket', () => samplePart('wall-shelf-bracket.yaml')],
];

const chordsIn = (items: readonly Item[], style: string): Chord[] =>
  strokesOf(items).flatMap((stroke) => (stroke.style === style ? flatten(stroke.path) : []));

/** No line to a label runs through words or over another. */
function expectNoneCrossed(items: readonly Item[]): number {
  const leads = chordsIn(items, 'lead');
  const words = wordsOf(items).map((one) => ({ text: one.text, box: boxOnSheet(one) }));
  for (const lead of leads) {
    expect(words.filter(({ box }) => segmentIntersectsBox(lead, box)).map(({ text }) => text)).toEqual([]);
    expect(leads.filter((other) => crosses(lead, other))).toEqual([]);
  }
  return leads.length;
}

const far = ({ left, right, bottom, top }: Box, { x, y }: Point): number =>
  Math.hypot(Math.max(0, left - x, x - right), Math.max(0, bottom - y, y - top));

/** A station's line runs this far past the part, mm: where the longest sign ends. */
const SIGN_MM = 5;
/** A line to a label ends this far short of a sign, mm. */
const SHORT_MM = 0.8;

describe.each(CROWDED)('%s', (_, make) => {
  const part = make();

  test('no line to a label crosses words or another: on its sheets, its card and its picture', () => {
    const layout = layOut(part, { paper: parsePaper('a4'), margin: 12.7, overlap: 15, turn: 'auto' });
    const pages = [...patternPages(part, layout, false).pages].map(({ drawing }) => drawing);
    const all = [...pages, cardPages(part, { paper: parsePaper('a4') })[0]!.drawing, composePicture(part)];
    expect(all.map(({ items }) => expectNoneCrossed(items)).some((leads) => leads > 0)).toBe(true);
  });

  test('no two labels in a row are read as one: on its card and its picture', () => {
    for (const { items } of [
      cardPages(part, { paper: parsePaper('a4') })[0]!.drawing,
      composePicture(part),
    ]) {
      const labels = wordsOf(items)
        .filter(({ text, anchor }) => anchor === 'middle' && /[a-z]/.test(text))
        .map((one) => ({ ...one, box: boxOnSheet(one) }));
      for (const [i, one] of labels.entries())
        for (const other of labels.slice(i + 1)) {
          if (Math.abs(one.at.y - other.at.y) > one.size * CAP_HEIGHT) continue;
          const gap = Math.max(one.box.left, other.box.left) - Math.min(one.box.right, other.box.right);
          expect(gap, `${one.text} | ${other.text}`).toBeGreaterThan(one.size * 0.49);
        }
    }
  });

  test('on its sheets every label of a place stands near it or has a line to it', () => {
    const { landmarks, stations } = dimensionsOf(part);
    const show = (mm: number): string => printedLength(mm, part.rule);
    const places = [
      ...landmarks.map((mark) => ({ text: `at ${show(mark.at.x)}`, feet: cornersOf(mark) })),
      ...stations.map(({ station, offsets }) => ({
        text: `at ${show(station)}`,
        feet: offsets.flatMap((offset) => (offset === undefined ? [] : [{ x: station, y: offset }])),
      })),
    ];
    const layout = layOut(part, { paper: parsePaper('a4'), margin: 12.7, overlap: 15, turn: 'auto' });
    let labels = 0;
    for (const [i, { drawing }] of [...patternPages(part, layout, false).pages].entries()) {
      const { toSheet } = layout.sheets[i]!;
      const leads = chordsIn(drawing.items, 'lead');
      for (const word of wordsOf(drawing.items)) {
        const named = places.filter(({ text }) => text === word.text);
        if (named.length === 0) continue;
        labels++;
        const feet = named.flatMap((place) => place.feet.map((foot) => transformPoint(toSheet, foot)));
        const box = boxOnSheet(word);
        // Its offset is in a second line under it, its name in a third.
        const both = {
          ...box,
          bottom: box.bottom - 1.5 * word.size - 6,
          left: box.left - 12,
          right: box.right + 12,
        };
        const near = feet.some(
          (foot) => far(both, foot) <= MAX_DISTANCE_WITHOUT_LEADER_MM + SIGN_MM + SHORT_MM,
        );
        const led = leads.some(
          ({ from, to }) =>
            far(both, from) < 2 && feet.some((foot) => distance(to, foot) <= SIGN_MM + SHORT_MM + 0.01),
        );
        expect(near || led, word.text).toBe(true);
      }
    }
    expect(labels).toBeGreaterThanOrEqual(7);
  });
});
