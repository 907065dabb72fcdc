import { expect, test } from 'vitest';
import { readSources } from '../house/source.ts';
import { codesIn } from './codes.ts';
import { pageNamed } from './pages.ts';

const page = pageNamed('json.md');
const found = codesIn(readSources('src').filter(({ path }) => path.endsWith('.ts')));

/** The codes in the first column of the tables of a section. */
function listed(section: string): string[] {
  const [, text = ''] = page.text.split(`\n## ${section}\n`);
  const [own = ''] = text.split(/^## /m);
  return [...own.matchAll(/^\| `([^`]+)` \| \S/gm)].flatMap(([, code]) => code ?? []);
}

test('every code that the program can give is listed, each once and with a line of its own', () => {
  expect(found.codes.length).toBeGreaterThan(150);
  const all = ['Codes of mistakes', 'Codes of warnings', 'Codes of fairness'].flatMap(listed);
  expect(all.toSorted()).toEqual(found.codes);
});

test('what may be wrong with a typed number is listed', () => {
  expect(listed('Codes of typed numbers').toSorted()).toEqual(found.typed);
});

test('no code is put together in a way that this test does not know', () => {
  expect(found.unknown).toEqual([]);
});

test('a code written, put together or called for is found', () => {
  const put = ['strip', 'other'].map((head) => `x = \`${head}.\${what}\`;`).join(' ');
  const text = `new Fault('a.b-c', ''); ${put} complain('odd', '');`;
  expect(codesIn([{ path: 'a.ts', text }])).toEqual({
    codes: ['a.b-c', 'strip.breaks', 'strip.nail', 'strip.risky', 'strip.thickness', 'strip.width'],
    typed: ['odd'],
    unknown: ['other.'],
  });
});
