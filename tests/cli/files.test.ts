import { existsSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
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

test('what a killed run left of the same file is swept away once it is old, and nothing else', () => {
  const folder = freshFolder();
  const leave = (name: string, hours: number): void => {
    writeFileSync(join(folder, name), 'half');
    const then = Date.now() / 1000 - hours * 3600;
    utimesSync(join(folder, name), then, then);
  };
  leave('.a.txt.123-1700000000000.part', 2);
  const others = ['.a.txt.99-1700000000001.part', '.a.txt.mine.part', '.b.txt.123-1700000000000.part'];
  leave(others[0]!, 0.1);
  for (const name of others.slice(1)) leave(name, 2);
  streamWhole(join(folder, 'a.txt'), (write) => write('whole'));
  expect(readdirSync(folder).sort()).toEqual([...others, 'a.txt'].sort());
});
