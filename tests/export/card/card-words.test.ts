import { expect, test } from 'vitest';
import type { Part } from '../../../src/part/part.ts';
import { partOf } from '../../part/jobs.ts';
import { crowdedPart } from '../card-faults.ts';
import { expectPageWords, textLines } from '../page-words.ts';
import { ALL, cardOf, sampleCard } from '../sample-cards.ts';

const edge = (name: string, run: string): Part =>
  partOf(`part: ${name}\nunits: mm\nedges:\n  upper:\n    - from: [0, 0]\n    - ${run}\n`);

const PARTS: readonly (readonly [name: string, card: ReturnType<typeof cardOf>])[] = [
  ...ALL.map((name) => [name, sampleCard(name)] as const),
  ['an arc without stock', cardOf(edge('Brace', 'arc: [400, 0]\n      rise: 40'))],
  ['a straight line', cardOf(edge('Ledger', 'line: [400, 0]'))],
  ['many nails and joints', cardOf(crowdedPart(), 'letter')],
];

test('the cards of the samples and of three other parts say what their file of words says', async () => {
  expect(PARTS.length).toBeGreaterThan(3);
  await expectPageWords(
    'card-page',
    PARTS.map(([name, { pages }]) => [name, pages.flatMap(({ drawing }) => textLines(drawing.items))]),
  );
});
