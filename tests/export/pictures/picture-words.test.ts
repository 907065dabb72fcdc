import { test } from 'vitest';
import { checkEdge } from '../../../src/check/check-edge.ts';
import type { Drawing } from '../../../src/export/drawing/drawing.ts';
import { composeBoard } from '../../../src/export/pictures/board-picture.ts';
import { composeCheckPicture } from '../../../src/export/pictures/check-picture.ts';
import { composePicture } from '../../../src/export/pictures/part-picture.ts';
import { composeSawPicture } from '../../../src/export/pictures/saw-picture.ts';
import { composeStripPicture } from '../../../src/export/pictures/strip-picture.ts';
import { offsetAt, REFERENCE_LINE } from '../../../src/part/offsets.ts';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { planStock } from '../../../src/shop/stock/stock-plan.ts';
import { adviseStrips } from '../../../src/shop/strip/part-strips.ts';
import { chooseStripSpecies } from '../../../src/shop/wood/find-species.ts';
import { itemAt, lastOf } from '../../../src/units/checked.ts';
import { SAMPLES, samplePart } from '../../part/jobs.ts';
import { expectPageWords, messageOf, textLines } from '../page-words.ts';

const leg = samplePart('hall-bench-leg.yaml');

function boardPicture(name: string, boardWidth: number): Drawing {
  const part = samplePart(name);
  const plan = planStock(part, { boardWidth });
  if (!plan.nesting) throw new Error('the part is nested');
  return composeBoard(part, plan, plan.nesting);
}

function checkPicture(pair: boolean): Drawing {
  const edge = lastOf(leg.edges);
  const readings = [2, 6, 10, 14].map((inches, i) => ({
    station: 25.4 * inches,
    offset: (offsetAt(edge, 25.4 * inches) ?? 0) + itemAt([0, 2, -3, 0], i),
  }));
  const how = { base: REFERENCE_LINE, tolerance: 0.8, beforeSanding: false };
  const check = checkEdge(leg, edge, readings, how);
  return composeCheckPicture(leg, check, pair ? check.readings : []);
}

const stripPicture = (name: string): Drawing => {
  const part = samplePart(name);
  const species = chooseStripSpecies(undefined, part.stock?.species);
  return composeStripPicture(part, adviseStrips(part, { species, rule: part.rule }));
};

test('the pictures say what their file of words says', async () => {
  const pictures: [string, Drawing][] = [
    ...SAMPLES.map((name): [string, Drawing] => [`${name}, the part`, composePicture(samplePart(name))]),
    ...SAMPLES.map((name): [string, Drawing] => [
      `${name}, on the saw`,
      composeSawPicture(samplePart(name), adviseSawing(samplePart(name))),
    ]),
    ...['hall-bench-leg.yaml', 'garden-arch-rail.yaml'].map((name): [string, Drawing] => [
      `${name}, the strip`,
      stripPicture(name),
    ]),
    ['hall-bench-leg.yaml, the board', boardPicture('hall-bench-leg.yaml', 260)],
    ['wall-shelf-bracket.yaml, the board', boardPicture('wall-shelf-bracket.yaml', 500)],
    ['hall-bench-leg.yaml, a check', checkPicture(false)],
    ['hall-bench-leg.yaml, a check of a pair', checkPicture(true)],
  ];
  await expectPageWords('pictures', [
    ...pictures.map(([name, { items }]) => [name, textLines(items)] as const),
    ['strip.no-nails', [messageOf(() => stripPicture('wall-shelf-bracket.yaml'))]],
  ]);
});
