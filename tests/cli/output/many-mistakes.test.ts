import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { fairlath, freshFolder } from '../run.ts';

test.each([19, 20, 21, 3000])('of %d mistakes in a file, prints twenty and counts the others', (count) => {
  const file = join(freshFolder(), 'wrong.yaml');
  const edges = 'edges: {a: [{from: [0, 0]}, {line: [10, 0]}]}';
  writeFileSync(
    file,
    `part: a\nunits: in\n${edges}\n${Array.from({ length: count }, (_, i) => `zz${i}: 1\n`).join('')}`,
  );
  const { code, err } = fairlath(['show', file]);
  const lines = err.trim().split('\n');
  expect(code).toBe(2);
  expect(lines).toHaveLength(Math.min(count, 20) + (count > 20 ? 1 : 0));
  if (count > 20) expect(lines.at(-1)).toContain(`${count - 20}`);
});
