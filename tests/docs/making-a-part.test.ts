import { expect, test } from 'vitest';
import { pageNamed } from './pages.ts';

test('every step of the work has a command and a picture', () => {
  const steps = pageNamed('making-a-part.md')
    .text.split(/^## /m)
    .filter((section) => /^\d+\. /.test(section));
  expect(steps.length).toBe(12);
  for (const step of steps) {
    const [title] = step.split('\n');
    expect(step, title).toMatch(/^```bash$/m);
    expect(step, title).toMatch(/^!\[[^\]]+\]\(pictures\//m);
  }
});
