import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { csvOf, offsetsOf } from '../measured-leg.ts';
import { fairlath, folderWith, freshFolder, MEASURED, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const measured = join(root, MEASURED);

const MISTAKES: readonly Mistake[] = [
  [['take-off', MEASURED, '--units', 'ft'], 'command.units'],
  [['take-off', MEASURED, '--graduation', '0'], 'graduation.zero', '--graduation'],
  [['take-off', MEASURED, '-o', 'b.yaml', '--name', 'x'.repeat(81)], 'job.text', '--name'],
  [['take-off', MEASURED, '-o', 'b.yaml', '--name', ''], 'job.empty', '--name'],
  [['take-off', MEASURED, '-o', 'a.yaml', '--picture', 'a.yaml'], 'command.one-file'],
  [['take-off', MEASURED, '-o', MEASURED, '--force'], 'file.is-input'],
];

const FEW = '0,0\n10,1\n20,0\n';

describe('fairlath take-off', () => {
  test('writes a job that show, print and check take as it is', () => {
    const folder = freshFolder();
    const args = ['take-off', measured, '-o', 'leg.yaml', '--name', 'Old leg', '--json'];
    expect(JSON.parse(fairlath(args, folder).out)).toMatchObject({ file: 'leg.yaml' });
    expect(fairlath(['show', 'leg.yaml'], folder)).toMatchObject({ code: 0, err: '' });
    expect(fairlath(['print', 'leg.yaml'], folder).code).toBe(0);
    const { verdict } = JSON.parse(
      fairlath(['check', 'leg.yaml', '--measured', measured, '--json'], folder).out,
    );
    expect(verdict).toBe('within');
  });

  test('its JSON names the kinds, the bad readings and the pins', () => {
    const rows = offsetsOf('2').map((row, i) => ({ ...row, offset: row.offset + (i === 7 ? 5 : 0) }));
    const folder = folderWith({ 'leg.csv': csvOf(rows) });
    const answer = JSON.parse(fairlath(['take-off', 'leg.csv', '-o', 'leg.yaml', '--json'], folder).out);
    expect(answer).toMatchObject({ command: 'take-off', units: 'mm', kind: 'batten', file: 'leg.yaml' });
    const kinds = new Set(answer.kinds.map(({ kind }: { kind: string }) => kind));
    expect(kinds).toEqual(new Set(['arc', 'batten', 'bow', 'ellipse', 'line', 'spline']));
    expect(answer.kinds[0]).toMatchObject({ steps: ['batten'], ends: ['free', 'free'] });
    expect(answer.outliers).toHaveLength(1);
    expect(answer.outliers[0].station).toBeCloseTo(14 * 25.4, 6);
    expect(answer.outliers[0].deviation).toBeCloseTo(5, 0);
    expect(answer.sigma).toBeGreaterThan(25.4 / 32 / Math.sqrt(12));
    // The nail of the leg's own job.
    expect(answer.pins[1][0]).toBeCloseTo(12 * 25.4, 0);
    expect(answer.pins[1][1]).toBeCloseTo(3.25 * 25.4, 1);
    expect(readFileSync(join(folder, 'leg.yaml'), 'utf8')).toMatch(/^# station 14": /m);
  });

  test('never overwrites without --force, and never its readings', () => {
    const folder = folderWith({ 'leg.csv': readFileSync(measured), 'leg.yaml': 'mine' });
    expect(fairlath(['take-off', 'leg.csv'], folder).code).toBe(2);
    expect(fairlath(['take-off', 'leg.csv', '-o', 'leg.csv', '--force'], folder).code).toBe(2);
    expect(readFileSync(join(folder, 'leg.yaml'), 'utf8')).toBe('mine');
    expect(fairlath(['take-off', 'leg.csv', '--force'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'leg.yaml'), 'utf8')).toContain('edges:');
  });

  testMistakes(MISTAKES);

  test('refuses too few readings as a mistake of the file', () => {
    const { code, err, faults } = fairlath(['take-off', 'leg.csv'], folderWith({ 'leg.csv': FEW }));
    expect({ code, faults }).toEqual({ code: 2, faults: [{ code: 'take-off.too-few' }] });
    expect(err).toMatch(/^leg\.csv: /);
  });

  test('its words are the reviewed ones', () =>
    expectWords(
      'take-off',
      [
        ['take-off', '--help'],
        ['take-off', MEASURED],
        ['take-off', MEASURED],
        ['take-off', 'few.csv'],
        ...MISTAKES.map(([args]) => args),
      ],
      { 'few.csv': FEW },
    ));
});
