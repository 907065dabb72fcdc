import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { printedLengthWords, sentence } from '../../../src/export/drawing/dimensions.ts';
import type { Page } from '../../../src/export/drawing/drawing.ts';
import { standardScale } from '../../../src/export/pictures/picture-frame.ts';
import { writePdf } from '../../../src/export/writers/pdf.ts';
import { halfOf } from '../../../src/part/derived/half-pattern.ts';
import type { Part } from '../../../src/part/part.ts';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { cutOrder } from '../../../src/shop/words/cut-order.ts';
import { sawCautions } from '../../../src/shop/words/saw-cautions.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { boxOf, clashes, crowdedPart, faultsOf } from '../card-faults.ts';

import { ALL, cardOf, font, readCard } from '../sample-cards.ts';

const POINTS_PER_MM = 72 / 25.4;

describe('a job card read back from its PDF', () => {
  test.each(ALL)(
    '%s is one leaf, its words inside, apart and large enough to read off the wall',
    async (name) => {
      const { pages } = await readCard(name);
      expect(pages.length).toBeLessThanOrEqual(2);
      for (const page of pages) {
        const { width, height, words } = page;
        for (const { text, at, width: wide, size } of words) {
          expect(at.x, text).toBeGreaterThan(0);
          expect(at.y, text).toBeGreaterThan(0);
          expect(at.x + wide, text).toBeLessThan(width);
          expect(at.y + size, text).toBeLessThan(height);
          expect(size / POINTS_PER_MM, text).toBeGreaterThanOrEqual(3.2);
        }
        expect(
          clashes(
            words.map(({ text, at, width: wide, size }) => ({ text, box: boxOf(at.x, at.y, wide, size) })),
          ),
        ).toEqual([]);
      }
    },
  );

  test.each(['letter', 'a4', 'legal', 'tabloid', 'a3'])(
    'a card on %s cuts off and covers nothing',
    (paper) => {
      expect(faultsOf(samplePart('hall-bench/leg.yaml'), paper)).toEqual([]);
    },
  );

  test('tabloid and A3 enlarge the type of letter', () => {
    const largest = (paper: string): number =>
      Math.max(
        ...cardOf(samplePart('hall-bench-leg.yaml'), paper).pages[0]!.drawing.items.flatMap((item) =>
          item.type === 'words' ? [item.size] : [],
        ),
      );
    expect(largest('a3') / largest('letter')).toBeCloseTo(297 / 210 / (215.9 / 210), 6);
  });

  test('the same job gives the same bytes twice', async () => {
    const write = async () => writePdf(cardOf(samplePart('hall-bench/leg.yaml')).pages, 'leg', font);
    expect(await write()).toEqual(await write());
  });
});

describe('a card of a job that says little', () => {
  const edge = (run: string): Part =>
    partOf(`part: Brace\nunits: mm\nedges:\n  brace:\n    - from: [0, 0]\n    - ${run}\n`);

  test('without stock has a cut list without board feet, and fits', () => {
    const part = edge('arc: [400, 0]\n      rise: 40');
    expect(cardOf(part).lists.cutList).toMatchObject({ boardFeet: '' });
    expect(faultsOf(part, 'a4')).toEqual([]);
  });

  test('of a straight part has one sentence in place of a strip, and fits', () => {
    const part = edge('line: [400, 0]');
    expect(cardOf(part).lists.strip).toEqual([expect.any(String)]);
    expect(faultsOf(part, 'a4')).toEqual([]);
  });

  test('of a half pattern fits', () => {
    expect(faultsOf(halfOf(samplePart('garden-arch-rail.yaml')), 'a4')).toEqual([]);
  });
});

test('a crowded part covers nothing, and its list of joints ends with how many are left out', () => {
  const part = crowdedPart();
  const joints = cardOf(part).lists.joints as string[];
  expect(faultsOf(part, 'letter')).toEqual([]);
  expect(joints.length).toBeLessThan(part.joints.length);
  expect(joints.at(-1)).toContain(String(part.joints.length - joints.length + 1));
});

test('property: the drawing’s scale is the largest usual one that fits', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-4, max: 50, noNaN: true }), (most) => {
      const scale = standardScale(most);
      expect(scale).toBeLessThanOrEqual(most * (1 + 1e-6));
      expect(scale).toBeGreaterThanOrEqual(most / 2 / (1 + 1e-6));
    }),
  );
});

test('notes beside the offsets of two curved edges are not cut', () => {
  const brace = partOf(
    'part: Garden arch brace\nunits: in\nstock: {species: white oak, thickness: 1 3/4}\nallowance: {saw: 1/16}\nedges:\n' +
      '  lower: [from: [0, 0], {batten: [44, 0], through: [[11 3/16, 2 5/32], [23 7/32, 3 9/32]]}]\n' +
      '  upper: [from: [0, 3 5/16], {batten: [44, 3 5/16], through: [[12 9/32, 5 21/32], [24 5/16, 6 27/32]]}]\n',
  );
  const words = cardOf(brace).pages[0]!.drawing.items.flatMap((item) =>
    item.type === 'words' ? [item.text] : [],
  );
  expect(words).toEqual(expect.arrayContaining(['nail of lower', 'nail of upper', 'apex of lower']));
  expect(words.filter((text) => text.includes('…'))).toEqual([]);
  expect(faultsOf(brace, 'letter')).toEqual([]);
});

test.each(ALL)('the card of %s says every step, every caution and no command', (name) => {
  const part = samplePart(name);
  const sawing = adviseSawing(part);
  const { pages, lists } = cardOf(part);
  const text = pages
    .flatMap(({ drawing }) => drawing.items)
    .flatMap((item) => (item.type === 'words' ? [item.text] : []))
    .join(' ');
  const order = cutOrder(part, sawing, printedLengthWords(part.rule)).map(sentence);
  expect(lists.order).toEqual(order);
  for (const step of order) expect(text).toContain(step);
  const cautions = lists.cautions as string[];
  expect(cautions.length).toBeGreaterThanOrEqual(
    sawCautions(part, sawing, printedLengthWords(part.rule)).length,
  );
  for (const caution of cautions) expect(text).toContain(caution.split(': ').slice(1).join(': '));
  expect(text).not.toMatch(/picture|fairlath|--/);
});

test('the card of a leg that stands draws it on the floor, on the front', () => {
  const [front, back] = cardOf(samplePart('hall-bench/leg.yaml')).pages;
  const textOf = ({ drawing }: Page): string =>
    drawing.items.flatMap((item) => (item.type === 'words' ? [item.text] : [])).join(' ');
  for (const words of ['From the front', 'From the side', 'floor', '1 25⁄32″ full'])
    expect(textOf(front!)).toContain(words);
  expect(textOf(back!)).toContain('order of cuts');
});
