import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { csvOf, folderWith, measured, offsetsOf } from '../measured-leg.ts';
import { fairlath, freshFolder } from '../run.ts';

describe('fairlath take-off', () => {
  test('writes a job that show, print and check take at once', () => {
    const folder = freshFolder();
    const { code, out } = fairlath(['take-off', measured, '-o', 'leg.yaml', '--name', 'Old leg'], folder);
    expect(code).toBe(0);
    expect(out).toMatch(/leg\.yaml: a spline lies best/);
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
    const told = JSON.parse(fairlath(['take-off', 'leg.csv', '-o', 'leg.yaml', '--json'], folder).out);
    expect(told).toMatchObject({ command: 'take-off', units: 'mm', kind: 'batten', file: 'leg.yaml' });
    expect(told.kinds.map(({ kind }: { kind: string }) => kind).toSorted()).toEqual([
      'arc',
      'batten',
      'bow',
      'line',
      'spline',
    ]);
    expect(told.outliers).toHaveLength(1);
    expect(told.outliers[0].station).toBeCloseTo(14 * 25.4, 6);
    expect(told.outliers[0].off).toBeCloseTo(5, 0);
    expect(told.sigma).toBeGreaterThan(25.4 / 32 / Math.sqrt(12));
    // The nail of the leg's own job.
    expect(told.pins[1][0]).toBeCloseTo(12 * 25.4, 0);
    expect(told.pins[1][1]).toBeCloseTo(3.25 * 25.4, 1);
    expect(readFileSync(join(folder, 'leg.yaml'), 'utf8')).toMatch(/# station 14 in: .*measure it again/);
  });

  test('never overwrites without --force, and never its readings', () => {
    const folder = folderWith({ 'leg.csv': readFileSync(measured), 'leg.yaml': 'mine' });
    expect(fairlath(['take-off', 'leg.csv'], folder).code).toBe(2);
    expect(fairlath(['take-off', 'leg.csv', '-o', 'leg.csv', '--force'], folder).code).toBe(2);
    expect(readFileSync(join(folder, 'leg.yaml'), 'utf8')).toBe('mine');
    expect(fairlath(['take-off', 'leg.csv', '--force'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'leg.yaml'), 'utf8')).toContain('edges:');
  });

  test.each([
    { args: ['--units', 'ft'], says: /inches \(in\) or millimetres \(mm\)/ },
    { args: ['--graduation', '0'], says: /--graduation/ },
    { args: ['--name', 'x'.repeat(81)], says: /^error: --name: the text is too long. Keep it to 80/ },
    { args: ['--name', ''], says: /^error: --name: nothing is written here/ },
  ])('take-off $args is a mistake', ({ args, says }) => {
    const { code, err } = fairlath(['take-off', measured, ...args], freshFolder());
    expect(code).toBe(2);
    expect(err).toMatch(says);
  });

  test('too few readings are a mistake of the file', () => {
    const folder = folderWith({ 'leg.csv': '0,0\n10,1\n20,0\n' });
    const { code, err } = fairlath(['take-off', 'leg.csv'], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/^leg\.csv: fewer than 5 stations/);
  });
});
