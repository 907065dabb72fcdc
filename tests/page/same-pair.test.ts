import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../cli/run.ts';
import { test } from './browser.ts';
import { compareAll } from './same.ts';

test('the page and the commands tell the same figures and make the same papers of a handed pair', async ({
  openPage,
}) => {
  const leg = readFileSync(join(root, 'samples', 'hall-bench', 'leg.yaml'), 'utf8');
  await compareAll(openPage, 'hall-bench/leg.yaml', leg);
});
