import { basename } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Source } from './source.ts';
import { readSources } from './source.ts';
import {
  crowdedFolders,
  lostFileNames,
  nonNullAssertions,
  sharedFileNames,
  sharedTypeNames,
} from './structure.ts';

const src = readSources('src');
const code = src.filter(({ path }) => path.endsWith('.ts'));

test('no folder of src holds more files than a reader overlooks', () => {
  expect(src.length).toBeGreaterThan(100);
  expect(crowdedFolders(src)).toEqual([]);
});

test('no two files of src share a name', () => {
  expect(sharedFileNames(src)).toEqual([]);
});

test('no type name of src is declared twice', () => {
  expect(sharedTypeNames(code)).toEqual([]);
});

/** What the inner loops over typed arrays need, and no more. */
const MAX_NON_NULL = 100;

test('few values are said to be there without a check', () => {
  const count = code.reduce((sum, source) => sum + nonNullAssertions(source), 0);
  expect(count).toBeLessThanOrEqual(MAX_NON_NULL);
});

test('the files that the documents name exist', () => {
  const names = new Set(
    ['src', 'tests', 'tools', 'bin'].flatMap(readSources).map(({ path }) => basename(path)),
  );
  const documents = [
    ...readSources('docs'),
    ...readSources('').filter(({ path }) => path === 'DEVELOPERS.md'),
  ];
  expect(documents.flatMap((document) => lostFileNames(document, names))).toEqual([]);
});

describe('a breach of each rule is found', () => {
  test('an assertion, a file that is gone', () => {
    expect(nonNullAssertions({ path: 'a.ts', text: 'const a = b!.c![0] !== !d;' })).toBe(2);
    const document = { path: 'a.md', text: 'see `src/saw.ts`, `bit.ts` and `-command.ts`' };
    expect(lostFileNames(document, new Set(['bit.ts']))).toEqual(['a.md names src/saw.ts']);
  });

  const files = (count: number): Source[] =>
    Array.from({ length: count }, (_, i) => ({ path: `src/part/file-${i}.ts`, text: '' }));

  test('21 files in one folder', () => {
    expect(crowdedFolders([...files(20), { path: 'src/part/ends/cut.ts', text: '' }])).toEqual([]);
    expect(crowdedFolders(files(21))).toEqual(['src/part holds 21 files']);
  });

  test('one file name in two folders', () => {
    const sources = ['a/saw.ts', 'b/saw.ts', 'a/index.ts', 'b/index.ts'].map((path) => ({ path, text: '' }));
    expect(sharedFileNames(sources)).toEqual(['saw.ts: a/saw.ts, b/saw.ts']);
  });

  test('one type name in two files, however it is declared', () => {
    const sources = [
      { path: 'a.ts', text: 'interface Saw {} function f(): void { type Bit = 1; }' },
      { path: 'b.ts', text: 'export class Saw {} enum Bit {} type Own = Own;' },
    ];
    expect(sharedTypeNames(sources)).toEqual(['Saw: a.ts, b.ts', 'Bit: a.ts, b.ts']);
  });
});
