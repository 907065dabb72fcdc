import { expect, test } from 'vitest';
import { truncate } from '../../../src/cli/output/truncate.ts';
import { parseNominal } from '../../../src/tiling/paper/printer-scale.ts';

test('what was typed at length is cut short in a message, in quotes or not; anything else stands', () => {
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

test('lines to measure that are longer than any length are longer than any paper', () => {
  expect(() => parseNominal('10000000')).toThrow(/"10000000" is longer than any paper/);
});
