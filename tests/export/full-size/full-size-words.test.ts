import { test } from 'vitest';
import { fullSize } from '../../../src/export/full-size/compose-full-size.ts';
import { drawnLines, drawnWords, type FullSize } from '../../../src/export/full-size/full-size.ts';
import { assertFitsPdfPage } from '../../../src/export/full-size/full-size-files.ts';
import { fullSizeOnBoard } from '../../../src/export/full-size/full-size-on-board.ts';
import { planStock } from '../../../src/shop/stock/stock-plan.ts';
import { BENCH, SAMPLES, samplePart } from '../../part/jobs.ts';
import { expectPageWords, messageOf } from '../page-words.ts';

/** The titles of the lines with their layers, then the words. */
const saidOf = (full: FullSize): string[] => [
  ...new Set(drawnLines(full).map(({ line: { layer, title } }) => `${layer}: ${title}`)),
  ...drawnWords(full).map(({ text }) => text),
];

const leg = samplePart('hall-bench-leg.yaml');

function onBoard(boardWidth: number, options: Parameters<typeof fullSizeOnBoard>[2]): FullSize {
  const { nesting } = planStock(leg, { boardWidth, kerf: 4 });
  if (!nesting) throw new Error('the leg is nested');
  return fullSizeOnBoard(leg, nesting, options);
}

test('full-size drawings and their mistakes say what their file of words says', async () => {
  const drawings: [string, FullSize][] = [
    ...[...SAMPLES, ...BENCH].map((name): [string, FullSize] => [name, fullSize(samplePart(name))]),
    ['hall-bench-leg.yaml with a parallel', fullSize(leg, { parallel: 3 })],
    ['hall-bench-leg.yaml on a board', onBoard(260, { board: 1 })],
  ];
  const mistakes: [string, () => unknown][] = [
    ['draw.nothing', () => fullSize(leg, { only: ['joints', 'board'] })],
    ['draw.parallel-left-out', () => fullSize(leg, { only: ['cut'], parallel: 2 })],
    ['draw.parallel-zero', () => fullSize(leg, { parallel: 0 })],
    ['draw.page-too-long', () => assertFitsPdfPage({ width: 6010, height: 310, items: [] })],
    ['draw.no-such-board, of one', () => onBoard(260, { board: 2 })],
    ['draw.no-such-board, of several', () => onBoard(110, { board: 3 })],
    ['draw.parallels-cross', () => onBoard(260, { board: 1, parallel: 3.6 })],
  ];
  await expectPageWords('full-size', [
    ...drawings.map(([name, full]) => [name, saidOf(full)] as const),
    ...mistakes.map(([code, make]) => [code, [messageOf(make)]] as const),
  ]);
});
