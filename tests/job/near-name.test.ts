import { expect, test } from 'vitest';
import { nearName } from '../../src/job/near-name.ts';

test.each([
  ['rize', 'rise'],
  ['Rise', 'rise'],
  ['raduis', 'radius'],
  ['thru', undefined],
  ['threw', undefined],
  ['throgh', 'through'],
  ['x', undefined],
  ['', undefined],
])('%j is taken for %j', (written, meant) => {
  expect(nearName(written, ['through', 'rise', 'radius'])).toBe(meant);
});
