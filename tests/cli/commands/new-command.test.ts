import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SAMPLES } from '../../part/jobs.ts';
import { fairlath, freshFolder, LEG, MEASURED, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const MISTAKES: readonly Mistake[] = [
  [['new'], 'new.what'],
  [['new', 'leg.yaml', '--samples'], 'new.what'],
  [['new', 'nowhere/leg.yaml'], 'file.no-folder'],
  [['new', LEG], 'file.exists'],
  [['new', '--samples'], 'file.exists'],
];

describe('fairlath new', () => {
  test('writes a starter job that show and print take as it is, and never overwrites it', () => {
    const folder = freshFolder();
    for (const command of ['new', 'show', 'print'])
      expect(fairlath([command, 'leg.yaml'], folder)).toMatchObject({ code: 0, err: '' });
    expect(existsSync(join(folder, 'leg.pdf'))).toBe(true);
    const before = readFileSync(join(folder, 'leg.yaml'));
    expect(fairlath(['new', 'leg.yaml'], folder)).toMatchObject({
      code: 2,
      faults: [{ code: 'file.exists' }],
    });
    expect(readFileSync(join(folder, 'leg.yaml'))).toEqual(before);
  });

  test('writes every sample with --samples, and none where one exists', () => {
    const folder = freshFolder();
    const { code, out } = fairlath(['new', '--samples', '--json'], folder);
    expect(code).toBe(0);
    const { files } = JSON.parse(out) as { files: [string, ...string[]] };
    for (const name of [
      ...SAMPLES.map((sample) => `samples/${sample}`),
      MEASURED,
      'samples/hall-bench/leg.yaml',
    ]) {
      expect(files).toContain(join(name));
      expect(readFileSync(join(folder, name))).toEqual(readFileSync(join(root, name)));
    }
    rmSync(join(folder, files[0]));
    expect(fairlath(['new', '--samples'], folder)).toMatchObject({
      code: 2,
      out: '',
      faults: [{ code: 'file.exists' }],
    });
    expect(existsSync(join(folder, files[0]))).toBe(false);
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords('new', [
      ['new', '--help'],
      ['new', 'leg.yaml'],
      ['new', 'leg.yaml'],
      ...MISTAKES.map(([args]) => args),
    ]));
});
