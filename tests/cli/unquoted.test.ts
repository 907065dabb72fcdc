import { expect, test } from 'vitest';
import { fairlath } from './run.ts';

const LEG = 'samples/hall-bench-leg.yaml';

test.each([
  [['check', LEG, '--reading', '6=1', '5/16']],
  [['check', LEG, '--reading', '6=1', '5/16', '--reading', '8=2']],
  [['check', '--reading', '6=1', '5/16']],
  [['stock', LEG, '--board-width', '10', '1/2']],
  [['offsets', LEG, '--at', '3', '1/2in']],
  [['show', '--curve', 'batten', '--chord', '28', '3/4', '--rise', '1']],
])('%j: reports a length without quotes', (words) => {
  const { code, faults } = fairlath(words);
  expect(code).toBe(2);
  expect(faults.map((fault) => fault.code)).toEqual(['command.unquoted']);
});
