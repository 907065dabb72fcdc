import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { writeNewFile } from '../../../src/cli/files/atomic-write.ts';
import { requireOutput } from '../../../src/cli/files/output-file.ts';
import { readText } from '../../../src/cli/files/read-text.ts';
import { fairlath, freshFolder, LEG, root } from '../run.ts';
import { expectMistake } from '../words.ts';

const fault = (code: string): object => expect.objectContaining({ code });
const require = (file: string, force = false): void =>
  requireOutput(file, { ending: '.yaml', inputs: [], force });

test.each(['-', '=x.pdf'])('%j is not taken for the name of an output, but is with its folder', (name) => {
  expect(() => require(name)).toThrow(fault('file.not-meant'));
  expect(() => writeNewFile(name, '')).toThrow(fault('file.not-meant'));
  expect(existsSync(name)).toBe(false);
  expect(() => require(`./${name}`)).not.toThrow();
});

test('an empty name is no name', () => {
  expect(() => writeNewFile('', '')).toThrow(fault('file.failed'));
});

describe.skipIf(process.platform === 'win32')('links and pipes', () => {
  test('a pipe, a device and a broken link are not replaced, not even by force', () => {
    const folder = freshFolder();
    const [pipe, lost] = [join(folder, 'pipe'), join(folder, 'lost')];
    spawnSync('sh', ['-c', 'mkfifo "$0"', pipe]);
    symlinkSync('nowhere', lost);
    for (const file of [pipe, lost, '/dev/null'])
      expect(() => require(file, true), file).toThrow(fault('file.not-plain'));
    expect(() => writeNewFile(lost, 'new')).toThrow(fault('file.exists'));
    expect(readdirSync(folder).sort()).toEqual(['lost', 'pipe']);
  });

  test('a pipe without a writer is read as empty at once', () => {
    const pipe = join(freshFolder(), 'pipe');
    spawnSync('sh', ['-c', 'mkfifo "$0"', pipe]);
    expect(readText(pipe)).toBe('');
  });

  test('a circle of links is refused', () => {
    const [one, other] = [join(freshFolder(), 'one'), join(freshFolder(), 'other')];
    symlinkSync(one, other);
    symlinkSync(other, one);
    expect(() => readText(one)).toThrow(fault('file.failed'));
  });
});

describe('an output under the ending of another kind of file', () => {
  test.each<[string[]]>([
    [['print', LEG, '-o', 'leg.dxf']],
    [['card', LEG, '-o', 'card.svg']],
    [['printer', 'sheet', '-o', 'sheet.png']],
    [['show', LEG, '--picture', 'leg.pdf']],
  ])('is refused before anything is written: %j', (args) => expectMistake([args, 'file.other-kind']));

  test('a name of any case, or without an ending, is taken', () => {
    const folder = freshFolder();
    for (const name of ['LEG.PDF', 'leg'])
      expect(fairlath(['card', join(root, LEG), '-o', name], folder).code).toBe(0);
    expect(readdirSync(folder).sort()).toEqual(['LEG.PDF', 'leg']);
  });
});
