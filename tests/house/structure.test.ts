import { describe, expect, test } from 'vitest';
import type { Source } from './source.ts';
import { readSources } from './source.ts';
import { crowdedFolders, sharedFileNames, sharedTypeNames } from './structure.ts';

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

describe('a breach of each rule is found', () => {
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
