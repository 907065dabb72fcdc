import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { partOf, sampleText } from '../part/jobs.ts';
import { fairlath, root } from './run.ts';

const readme = readFileSync(join(root, 'README.md'), 'utf8');
const blocks = (language: string): string[] =>
  [...readme.matchAll(new RegExp(`^\`\`\`${language}\n([\\s\\S]*?)^\`\`\``, 'gm'))].map(([, body]) => body!);

test('the quick line in the README answers as the README says', () => {
  const [command] = blocks('sh').filter((block) => block.startsWith('fairlath'));
  const [answer] = blocks('text');
  const { out } = fairlath(command!.trim().split(' ').slice(1));
  expect(out).toBe(answer);
});

test('the job in the README is the sample leg', () => {
  const [job] = blocks('yaml');
  expect(partOf(job!).shape).toEqual(partOf(sampleText('hall-bench-leg.yaml')).shape);
});
