import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { standardScale } from '../../../src/export/drawing/drawing-scale.ts';
import { writePdf } from '../../../src/export/writers/pdf.ts';
import { halfOf } from '../../../src/part/derived/half-pattern.ts';
import type { Part } from '../../../src/part/part.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { boxOf, clashes, faultsOf } from '../card-faults.ts';

import { ALL, cardOf, font, readCard } from '../sample-cards.ts';

const POINTS_PER_MM = 72 / 25.4;

describe('a job card read back from its PDF', () => {
  test.each(ALL)(
    '%s is one page, its words inside, apart and large enough to read off the wall',
    async (name) => {
      const { pages } = await readCard(name);
      expect(pages).toHaveLength(1);
      const { width, height, words } = pages[0]!;
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
    },
  );

  test.each(['letter', 'a4', 'legal', 'tabloid', 'a3'])('on %s nothing is cut off or covered', (paper) => {
    expect(faultsOf(samplePart('hall-bench/leg.yaml'), paper)).toEqual([]);
  });

  test('tabloid and A3 carry the same in larger type', () => {
    const largest = (paper: string): number =>
      Math.max(
        ...cardOf(samplePart('hall-bench-leg.yaml'), paper).page.drawing.items.flatMap((item) =>
          item.type === 'words' ? [item.size] : [],
        ),
      );
    expect(largest('a3') / largest('letter')).toBeCloseTo(297 / 210 / (215.9 / 210), 6);
  });

  test('the same job gives the same bytes', async () => {
    const write = async () => writePdf([cardOf(samplePart('hall-bench/leg.yaml')).page], 'leg', font);
    expect(await write()).toEqual(await write());
  });
});

describe('a card of a job that says little', () => {
  const textOf = (part: Part): string =>
    cardOf(part)
      .page.drawing.items.flatMap((item) => (item.type === 'words' ? [item.text] : []))
      .join(' ');

  test('without stock it says what to write', () => {
    const part = partOf(
      'part: Brace\nunits: mm\nedges:\n  brace:\n    - from: [0, 0]\n    - arc: [400, 0]\n      rise: 40\n',
    );
    expect(textOf(part)).toContain('write stock.thickness to get');
    expect(textOf(part)).toContain('a line on the board');
    expect(faultsOf(part, 'a4')).toEqual([]);
  });

  test('of a straight part there is no strip, and a straightedge is enough', () => {
    const part = partOf(
      'part: Ledger\nunits: mm\nedges:\n  upper:\n    - from: [0, 0]\n    - line: [400, 0]\n',
    );
    expect(textOf(part)).toContain('draw it along a straightedge');
    expect(faultsOf(part, 'a4')).toEqual([]);
  });

  test('a half pattern has its card, too', () => {
    expect(faultsOf(halfOf(samplePart('garden-arch-rail.yaml')), 'a4')).toEqual([]);
  });
});

test('a part with many nails and joints keeps to one page, and the card says where the rest is', () => {
  const through = Array.from({ length: 12 }, (_, i) => `[${100 * (i + 1)}, ${40 + 12 * Math.sin(i)}]`).join(
    ', ',
  );
  const holes = Array.from(
    { length: 30 },
    (_, i) => `  - hole: {at: ${20 + 40 * i}, out: 20, diameter: 8, label: dowel}`,
  ).join('\n');
  const part = partOf(
    `part: Slat rail of the garden arch with a name that runs past the edge of every sheet\nunits: mm\nstock: {thickness: 20}\nedges:\n  lower:\n    - from: [0, 0]\n    - line: [1300, 0]\n  upper:\n    - from: [0, 40]\n    - spline: [1300, 40]\n      through: [${through}]\njoints:\n${holes}\nnotes: ${'Mind the grain and keep the face side up. '.repeat(12)}\n`,
  );
  const { lists } = cardOf(part);
  expect(faultsOf(part, 'letter')).toEqual([]);
  expect((lists.joints as string[]).at(-1)).toMatch(/and \d+ more: see the cover of the pattern/);
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

test('notes beside the offsets of two curved edges are told in full', () => {
  const brace = partOf(
    'part: Garden arch brace\nunits: in\nstock: {species: white oak, thickness: 1 3/4}\nallowance: {saw: 1/16}\nedges:\n' +
      '  lower: [from: [0, 0], {batten: [44, 0], through: [[11 3/16, 2 5/32], [23 7/32, 3 9/32]]}]\n' +
      '  upper: [from: [0, 3 5/16], {batten: [44, 3 5/16], through: [[12 9/32, 5 21/32], [24 5/16, 6 27/32]]}]\n',
  );
  const words = cardOf(brace).page.drawing.items.flatMap((item) =>
    item.type === 'words' ? [item.text] : [],
  );
  expect(words).toEqual(expect.arrayContaining(['nail of lower', 'nail of upper', 'apex of lower']));
  expect(words.filter((text) => text.includes('…'))).toEqual([]);
  expect(faultsOf(brace, 'letter')).toEqual([]);
});
