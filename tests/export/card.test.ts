import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Box } from '../../src/curves/curve.ts';
import { cardPage, composeCard } from '../../src/export/card.ts';
import { usualScale } from '../../src/export/card-drawing.ts';
import type { Words } from '../../src/export/drawing.ts';
import { writePdf } from '../../src/export/pdf.ts';
import { CAPITALS, textWidth } from '../../src/export/type.ts';
import { halfOf } from '../../src/part/half.ts';
import { offsetAt } from '../../src/part/offsets.ts';
import type { Part } from '../../src/part/part.ts';
import { stripSpecies } from '../../src/shop/find-species.ts';
import { adviseStrips } from '../../src/shop/part-strips.ts';
import { planStock } from '../../src/shop/stock-plan.ts';
import { parsePaper } from '../../src/tiling/paper.ts';
import { Fault, Faults } from '../../src/units/fault.ts';
import { readOnRule, showOnRule } from '../../src/units/rule.ts';
import { typesetFractions } from '../../src/units/typeset.ts';
import { BENCH, partOf, SAMPLES, samplePart } from '../part/jobs.ts';
import { fontBytes } from './font.ts';
import { readPdf } from './read-pdf.ts';

const font = fontBytes();
const POINTS_PER_MM = 72 / 25.4;
const ALL = [...SAMPLES, ...BENCH];

const cardOf = (part: Part, paper = part.rule.unit === 'in' ? 'letter' : 'a4') =>
  composeCard(part, { paper: parsePaper(paper) });

/** A sample's card is composed once for all that is asked of it. */
const cards = new Map<string, ReturnType<typeof composeCard>>();
function sampleCard(name: string) {
  const card = cards.get(name) ?? cardOf(samplePart(name));
  cards.set(name, card);
  return card;
}

const readCard = async (name: string) => readPdf(await writePdf([sampleCard(name).page], name, font));

/** From the foot of a descender (0.2 of the size, as the font has it) to the capitals' top. */
const boxOf = (left: number, base: number, width: number, size: number): Box => ({
  left,
  right: left + width,
  bottom: base - 0.2 * size,
  top: base + CAPITALS * size,
});

const overlapping = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;

/** Pairs of words that lie over each other. */
const clashes = (words: readonly { readonly text: string; readonly box: Box }[]): string[] =>
  words.flatMap((one, i) =>
    words
      .slice(i + 1)
      .flatMap((other) => (overlapping(one.box, other.box) ? [`${one.text} / ${other.text}`] : [])),
  );

const composedBox = ({ text, at, size, anchor }: Words): Box => {
  const width = textWidth(text, size);
  return boxOf(at.x - { start: 0, middle: width / 2, end: width }[anchor], at.y, width, size);
};

/** All that must hold of any card, before it is written. */
function faultsOf(part: Part, paper: string): string[] {
  const { drawing } = cardPage(part, { paper: parsePaper(paper) });
  const words = drawing.items
    .filter((item) => item.type === 'words')
    .map((item) => ({ text: item.text, size: item.size, box: composedBox(item) }));
  const outside = words.filter(
    ({ box }) =>
      box.left < 5 || box.bottom < 5 || box.right > drawing.width - 5 || box.top > drawing.height - 5,
  );
  return [
    ...outside.map(({ text }) => `outside: ${text}`),
    ...words.filter(({ size }) => size < 3.2).map(({ text, size }) => `${size} mm: ${text}`),
    ...clashes(words),
  ];
}

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

type OffsetList = readonly {
  readonly station: number;
  readonly shown: string;
  readonly edges: readonly { readonly name: string; readonly offset: number; readonly shown: string }[];
}[];

const typeset = (shown: string): string => typesetFractions(shown).replace(/^-/, '−');

describe('the figures of a card', () => {
  test.each(ALL)('%s: offsets are those of the part, as the rule shows them', async (name) => {
    const part = samplePart(name);
    const { lists } = sampleCard(name);
    const rows = lists.offsets as OffsetList;
    expect(rows.length).toBeGreaterThan(3);
    const onPaper = new Set((await readCard(name)).pages[0]!.words.map(({ text }) => text));
    for (const { station, shown, edges } of rows) {
      expect(shown).toBe(typeset(showOnRule(station, part.rule)));
      expect(onPaper).toContain(shown);
      for (const { name: edge, offset, shown: told } of edges) {
        expect(offset).toBe(offsetAt(part.edges.find((each) => each.name === edge)!, station));
        expect(told).toBe(typeset(showOnRule(offset, part.rule)));
      }
    }
  });

  test.each(ALL)('%s: blank, strip and board feet are those that stock and batten tell', (name) => {
    const part = samplePart(name);
    const { lists } = sampleCard(name);
    const { blank, amount } = planStock(part, {});
    const about = (mm: number): string => typeset(readOnRule(mm, part.rule).text);
    const list = lists.cutList as { readonly rough: string; readonly boardFeet: string };
    if (part.shape.type === 'closed') {
      expect(list.rough).toBe(
        `${[blank.length, blank.width, blank.thickness!].map(about).join(' × ')} ${part.rule.unit}`,
      );
      expect(list.boardFeet).toBe(amount!.rough!.boardFeet.toFixed(1));
    }
    const runs = adviseStrips(part, {
      species: stripSpecies(undefined, part.stock?.species),
      rule: part.rule,
    });
    expect((lists.strip as { size: string }).size).toContain(about(runs[0].advice.thickness));
  });

  test('a leg’s diagonals join the corners that its slanting ends leave', () => {
    const part = samplePart('hall-bench/leg.yaml');
    const [left, right] = part.ends!;
    const measures = sampleCard('hall-bench/leg.yaml').lists.measures as { label: string; length: number }[];
    const { x, y } = { x: right.face[1].x - left.face[0].x, y: right.face[1].y - left.face[0].y };
    expect(measures.find(({ label }) => label === 'outer left to inner right')!.length).toBeCloseTo(
      Math.hypot(x, y),
      9,
    );
  });

  test('both ends of the leg are set to its miter and tilt', () => {
    // atan(tan 4° · cos 6°) = 3.978°: a tenth of a degree is as near as a saw is set.
    const [ends] = sampleCard('hall-bench/leg.yaml').lists.saw as { what: string; value: string }[];
    expect(ends).toMatchObject({ what: 'both ends', value: 'miter 6°, tilt 4°' });
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

/** Any job of a workshop's size that a maker might write: one edge or two, arcs and splines, ends, joints, stock. */
const anyJob = fc
  .record({
    length: fc.integer({ min: 40, max: 3000 }),
    rise: fc.integer({ min: -20, max: 20 }),
    width: fc.integer({ min: 10, max: 90 }),
    kind: fc.constantFrom('arc', 'spline', 'line'),
    closed: fc.boolean(),
    stock: fc.constantFrom('', 'stock: {thickness: 22}', 'stock: {species: ash, thickness: 45, layers: 3}'),
    lean: fc.integer({ min: -8, max: 8 }),
    holes: fc.integer({ min: 0, max: 6 }),
    unit: fc.constantFrom('mm', 'in'),
    notes: fc.constantFrom('', 'notes: Keep the marked face up.'),
  })
  .map(({ length: l, rise, width, kind, closed, stock, lean, holes, unit, notes }) => {
    const mm = (size: number): string => `${size} mm`;
    const high = mm(l * (width / 300));
    const out = mm(l * (rise / 100));
    const through = `[${mm(l / 2)}, ${mm(l * (width / 300 + rise / 150))}]`;
    const bent = (to: string): string =>
      ({
        arc: `- arc: [${mm(l)}, ${to}]\n      rise: ${rise === 0 ? mm(l / 50) : out}`,
        spline: `- spline: [${mm(l)}, ${to}]\n      through: [${through}]`,
        line: `- line: [${mm(l)}, ${to}]`,
      })[kind];
    const bottom = `  under:\n    - from: [0, ${mm(-l / 3)}]\n    - line: [${mm(l)}, ${mm(-l / 3)}]\n`;
    const joints = Array.from(
      { length: closed ? holes : 0 },
      (_, i) =>
        `  - hole: {at: ${mm((l * (i + 2)) / (holes + 4))}, out: ${mm(-l / 4)}, diameter: ${mm(l / 60)}}`,
    );
    return [
      `part: Trial\nunits: ${unit}`,
      stock,
      `edges:\n${closed ? bottom : ''}  over:\n    - from: [0, ${high}]\n    ${bent(high)}`,
      closed ? `ends:\n  right: {miter: ${lean}}` : '',
      joints.length > 0 ? `joints:\n${joints.join('\n')}` : '',
      notes,
    ]
      .filter((line) => line !== '')
      .join('\n');
  });

/** The part of a job; undefined where it has faults (edges that cross, a joint outside): those have no card. */
function partIfAny(text: string): Part | undefined {
  try {
    return partOf(text);
  } catch (error) {
    if (error instanceof Faults || error instanceof Fault) return undefined;
    throw error;
  }
}

test('property: whatever the job, its card is one page with nothing over anything else', () => {
  let made = 0;
  fc.assert(
    fc.property(anyJob, fc.constantFrom('letter', 'a4', 'a3'), (text, paper) => {
      const part = partIfAny(text);
      if (!part) return;
      made++;
      expect(faultsOf(part, paper)).toEqual([]);
    }),
    { numRuns: 15 },
  );
  expect(made).toBeGreaterThan(7);
});

test('property: the drawing’s scale is the largest usual one that fits', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-4, max: 50, noNaN: true }), (most) => {
      const scale = usualScale(most);
      expect(scale).toBeLessThanOrEqual(most * (1 + 1e-6));
      expect(scale).toBeGreaterThanOrEqual(most / 2 / (1 + 1e-6));
    }),
  );
});
