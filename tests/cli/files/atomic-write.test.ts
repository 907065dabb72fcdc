import {
  chmodSync,
  existsSync,
  lstatSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { streamFileAtomic, writeFileAtomic } from '../../../src/cli/files/atomic-write.ts';
import { freshFolder } from '../run.ts';

test('a file in chunks appears once the last chunk is written', () => {
  const file = join(freshFolder(), 'a.txt');
  streamFileAtomic(file, (write) => {
    write('one ');
    expect(existsSync(file)).toBe(false);
    write('two');
  });
  expect(readFileSync(file, 'utf8')).toBe('one two');
});

test('no temporary file stands beside it until it is larger than most', () => {
  const folder = freshFolder();
  streamFileAtomic(join(folder, 'a.txt'), (write) => {
    write('one ');
    expect(readdirSync(folder)).toEqual([]);
    write('-'.repeat(5e6));
    write(' two');
    expect(readdirSync(folder)).toHaveLength(1);
  });
  expect(readFileSync(join(folder, 'a.txt'), 'utf8')).toBe(`one ${'-'.repeat(5e6)} two`);
});

test('a name may be as long as the system takes, in any script', () => {
  const folder = freshFolder();
  const names = [`${'脚'.repeat(83)}.pdf`, `${'a'.repeat(39)}${'🪵'.repeat(50)}.pdf`];
  for (const name of names) writeFileAtomic(join(folder, name), 'whole');
  expect(readdirSync(folder).sort()).toEqual(names.sort());
});

test('work that fails halfway leaves the old file and nothing beside it', () => {
  const folder = freshFolder();
  const file = join(folder, 'a.txt');
  writeFileSync(file, 'old');
  const failing = (): void =>
    streamFileAtomic(file, (write) => {
      write('new');
      throw new Error('the pencil broke');
    });
  expect(failing).toThrow('the pencil broke');
  expect(readFileSync(file, 'utf8')).toBe('old');
  expect(readdirSync(folder)).toEqual(['a.txt']);
});

test('the temporary files of killed runs are removed once they are old, and nothing else', () => {
  const folder = freshFolder();
  const leave = (name: string, hours: number): void => {
    writeFileSync(join(folder, name), 'half');
    const then = Date.now() / 1000 - hours * 3600;
    utimesSync(join(folder, name), then, then);
  };
  leave('.a.txt.123-1700000000000.part', 2);
  const others = ['.a.txt.99-1700000000001.part', '.a.txt.mine.part', '.b.txt.123-1700000000000.part'];
  for (const name of others) leave(name, name.includes('.99-') ? 0.1 : 2);
  streamFileAtomic(join(folder, 'a.txt'), (write) => write('whole'));
  expect(readdirSync(folder).sort()).toEqual([...others, 'a.txt'].sort());
});

test.skipIf(process.platform === 'win32')('a link is followed, and its file keeps its permissions', () => {
  const folder = freshFolder();
  const [file, link] = [join(folder, 'kept.txt'), join(folder, 'a.txt')];
  writeFileSync(file, 'old');
  chmodSync(file, 0o660);
  symlinkSync('kept.txt', link);
  writeFileAtomic(link, 'new');
  expect(readFileSync(file, 'utf8')).toBe('new');
  expect(statSync(file).mode & 0o777).toBe(0o660);
  expect(lstatSync(link).isSymbolicLink()).toBe(true);
});
