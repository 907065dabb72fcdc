import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { freshFolder, root } from '../cli/run.ts';
import { undocumented, undocumentedFunctions } from './docstrings.ts';
import { readSources } from './source.ts';

test('every export of the library says what it is, and so does every member of an exported type', () => {
  expect(undocumented(root, ['src/index.ts', 'src/export/writers/pdf.ts'])).toEqual([]);
});

test('a function, a type and a member without a docstring are found, through a re-export', () => {
  const folder = freshFolder();
  cpSync(join(root, 'package.json'), join(folder, 'package.json'));
  writeFileSync(
    join(folder, 'wood.ts'),
    `/** Saws. */ export const saw = () => 1;
     export const plane = () => 2;
     export interface Board { readonly length: number;
     /** mm */ readonly width: number }
     /** A nail. */ export class Nail { constructor(/** mm */ readonly length: number, private readonly head: number) {} drive() {} }`,
  );
  writeFileSync(join(folder, 'index.ts'), `export { type Board, Nail, plane, saw } from './wood.ts';`);
  expect(undocumented(folder, ['index.ts'])).toEqual(['Board', 'Board.length', 'Nail.drive', 'plane']);
});

test('every exported function that is long or takes a number says what it does', () => {
  const sources = readSources('src').filter(({ path }) => path.endsWith('.ts'));
  expect(sources.length).toBeGreaterThan(0);
  expect(undocumentedFunctions(sources)).toEqual([]);
});

test('a long function and one that takes a number are found without a docstring, short ones pass', () => {
  const text = `
export function long(): number {${'\n  // one line more'.repeat(10)}
  return 1;
}
export const inches = (mm: number): number => mm / 25.4;
/** To inches. */ export const told = (mm: number): number => mm / 25.4;
export const short = (words: string): string => words;
const hidden = (mm: number): number => mm;`;
  expect(undocumentedFunctions([{ path: 'wood.ts', text }])).toEqual(['wood.ts: long', 'wood.ts: inches']);
});
