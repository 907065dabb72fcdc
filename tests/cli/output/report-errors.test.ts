import { expect, test } from 'vitest';
import { truncate } from '../../../src/cli/output/report-errors.ts';

test('a message cuts what was typed at length short, in quotes or not, and nothing else', () => {
  const long = 'x'.repeat(5000);
  for (const message of [
    `no edge "${long}". Known: "a".`,
    `no edge "${'x '.repeat(2500)}".`,
    `${long}: no file`,
  ])
    expect(truncate(message).length).toBeLessThan(100);
  expect(truncate(`no edge "${long}". Known: "a".`)).toMatch(/^no edge "x+…". Known: "a".$/);
  const usual = `"a" has ${'many words '.repeat(60)}and "b" some.`;
  expect(truncate(usual)).toBe(usual);
});
