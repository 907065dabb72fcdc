import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { streamWhole } from '../../src/cli/files.ts';
import { freshFolder } from './run.ts';

test('a file written in chunks appears whole once the last is written', () => {
  const file = join(freshFolder(), 'a.txt');
  streamWhole(file, (write) => {
    write('one ');
    expect(existsSync(file)).toBe(false);
    write('two');
  });
  expect(readFileSync(file, 'utf8')).toBe('one two');
});

test('work that fails half-way leaves the old file as it was and nothing beside it', () => {
  const folder = freshFolder();
  const file = join(folder, 'a.txt');
  writeFileSync(file, 'old');
  const failing = (): void =>
    streamWhole(file, (write) => {
      write('new');
      throw new Error('the pencil broke');
    });
  expect(failing).toThrow('the pencil broke');
  expect(readFileSync(file, 'utf8')).toBe('old');
  expect(readdirSync(folder)).toEqual(['a.txt']);
});
