import { spawnSync } from 'node:child_process';
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
import { describe, expect, test } from 'vitest';
import {
  readText,
  requireWritable,
  streamFileAtomic,
  writeFileAtomic,
  writeNewFile,
} from '../../../src/cli/files/atomic-files.ts';
import { fairlath, freshFolder, root } from '../run.ts';

test('a file written in chunks appears whole once the last is written', () => {
  const file = join(freshFolder(), 'a.txt');
  streamFileAtomic(file, (write) => {
    write('one ');
    expect(existsSync(file)).toBe(false);
    write('two');
  });
  expect(readFileSync(file, 'utf8')).toBe('one two');
});

test('meanwhile nothing lies beside it that a kill could leave, unless it is larger than most', () => {
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

test.each([
  ['-', /not to standard output.*\.\/- /],
  ['=x.pdf', /-o x\.pdf.*\.\/=x\.pdf/],
  ['', /^"": this is no name/],
])('%j is no name for what is written', (name, says) => {
  expect(() => requireWritable(name, undefined, () => false, false) ?? writeFileAtomic(name, '')).toThrow(
    says,
  );
  expect(() => writeNewFile(name, '')).toThrow(says);
  expect(existsSync(name)).toBe(false);
});

test.skipIf(process.platform === 'win32')('links that lead in a circle are told as such', () => {
  const [one, other] = [join(freshFolder(), 'one'), join(freshFolder(), 'other')];
  symlinkSync(one, other);
  symlinkSync(other, one);
  expect(() => readText(one)).toThrow(/links lead round in a circle/);
});

test('work that fails half-way leaves the old file as it was and nothing beside it', () => {
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
  streamFileAtomic(join(folder, 'a.txt'), (write) => write('whole'));
  expect(readdirSync(folder).sort()).toEqual([...others, 'a.txt'].sort());
});

describe.skipIf(process.platform === 'win32')('links, pipes and permissions', () => {
  const told = (work: () => void): string => {
    try {
      work();
      return 'done';
    } catch (error) {
      return (error as { code: string }).code;
    }
  };

  test('a file is replaced where a link leads, with the permissions that it had', () => {
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

  test('a pipe, a device and a link to nothing are not replaced, not even by force', () => {
    const folder = freshFolder();
    const [pipe, lost] = [join(folder, 'pipe'), join(folder, 'lost')];
    spawnSync('sh', ['-c', 'mkfifo "$0"', pipe]);
    symlinkSync('nowhere', lost);
    for (const file of [pipe, lost, '/dev/null'])
      expect(
        told(() => requireWritable(file, undefined, () => true, true)),
        file,
      ).toBe('file.not-plain');
    expect(told(() => writeNewFile(lost, 'new'))).toBe('file.exists');
    expect(readdirSync(folder).sort()).toEqual(['lost', 'pipe']);
  });

  test('a pipe that nobody writes to is empty, not waited for', () => {
    const pipe = join(freshFolder(), 'pipe');
    spawnSync('sh', ['-c', 'mkfifo "$0"', pipe]);
    expect(readText(pipe)).toBe('');
  });
});

describe('an output named as another kind of file is refused before anything is written', () => {
  const leg = join(root, 'samples/hall-bench-leg.yaml');
  test.each<[string[], RegExp]>([
    [['print', leg, '-o', 'leg.svg'], /leg\.svg: .* a PDF\. Name a file ending in \.pdf\. .*fairlath draw/],
    [['card', leg, '-o', 'card.png'], /card\.png: .* ending in \.pdf\.$/m],
    [['printer', 'sheet', '-o', 'sheet.png'], /sheet\.png: .* ending in \.pdf\.$/m],
    [['show', leg, '--picture', 'leg.png'], /leg\.png: .* an SVG\. Name a file ending in \.svg\.$/m],
    [['saw', leg, '--picture', 'saw.pdf'], /saw\.pdf: .* ending in \.svg\.$/m],
  ])('%s', (args, says) => {
    const folder = freshFolder();
    expect(fairlath(args, folder)).toEqual({ code: 2, out: '', err: expect.stringMatching(says) });
    expect(readdirSync(folder)).toEqual([]);
  });

  test('a name of any case, or without an ending, is as good', () => {
    const folder = freshFolder();
    for (const name of ['LEG.PDF', 'leg']) expect(fairlath(['card', leg, '-o', name], folder).code).toBe(0);
    expect(readdirSync(folder).sort()).toEqual(['LEG.PDF', 'leg']);
  });
});
