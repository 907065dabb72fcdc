import { copyFileSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SAMPLES, sampleText } from '../../part/jobs.ts';
import { fairlath, freshFolder, root } from '../run.ts';

const leg = join(root, 'samples/hall-bench-leg.yaml');

describe('fairlath print', () => {
  test.each(SAMPLES)('prints the sample %s and says where it is and how to print it', (name) => {
    const folder = freshFolder();
    const { code, out, err } = fairlath(['print', join(root, 'samples', name)], folder);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const file = name.replace('.yaml', '.pdf');
    expect(out).toContain(file);
    expect(out).toMatch(/100 %/);
    expect(readFileSync(join(folder, file)).subarray(0, 5).toString()).toBe('%PDF-');
    expect(readdirSync(folder)).toEqual([file]); // nothing left lying beside it
  });

  test('same job, same bytes; its own output is replaced', () => {
    const folder = freshFolder();
    fairlath(['print', leg, '-o', 'a.pdf'], folder);
    const first = readFileSync(join(folder, 'a.pdf'));
    expect(fairlath(['print', leg, '-o', 'a.pdf'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'a.pdf'))).toEqual(first);
  });

  test('its JSON names every sheet with its page and map', () => {
    const folder = freshFolder();
    const { sheets, checks, paper } = JSON.parse(
      fairlath(['print', leg, '--paper', 'a4', '--json'], folder).out,
    );
    expect(paper).toBe('a4');
    expect(sheets[0]).toMatchObject({ name: 'A1', page: 2 });
    for (const { toPage } of sheets) {
      const [a, b, c, d] = toPage;
      expect(a * d - b * c).toBeCloseTo((72 / 25.4) ** 2, 9); // 1/72 in: ISO 32000-1, 8.3.2.3
    }
    expect(checks.length).toBeGreaterThanOrEqual(2);
    for (const { from, to, length } of checks)
      expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(length, 9);
  });

  test('it says how many sheets the search saves, in words and in figures', () => {
    const folder = freshFolder();
    const rail = join(root, 'samples/garden-arch-rail.yaml');
    const told = JSON.parse(fairlath(['print', rail, '--json'], folder).out);
    expect(told.lowerBound).toBeLessThanOrEqual(told.sheets.length);
    expect(told.sheets.length).toBeLessThan(told.plainSheets);
    expect(fairlath(['print', rail], folder).out).toContain(
      `${told.sheets.length} sheets instead of ${told.plainSheets} of A4`,
    );
  });

  test('a pattern of many sheets is refused with the way to print it, and then printed', () => {
    const folder = freshFolder();
    const wide = [
      'print',
      '--curve',
      'arc',
      '--chord',
      '30000',
      '--rise',
      '9000',
      '--units',
      'mm',
      '-o',
      'a.pdf',
    ];
    const { code, err } = fairlath(wide, folder);
    expect(code).toBe(2);
    const [option, count] = /--max-sheets \d+/.exec(err)![0].split(' ') as [string, string];
    expect(readdirSync(folder)).toEqual([]);
    const told = fairlath([...wide, option, count], folder);
    expect(told).toMatchObject({ code: 0, err: '' }); // no progress where nobody watches
    expect(readdirSync(folder)).toEqual(['a.pdf']);
  });

  test('the job file itself and files of others are left alone', () => {
    const folder = freshFolder();
    copyFileSync(leg, join(folder, 'leg.yaml'));
    symlinkSync('leg.yaml', join(folder, 'link.yaml'));
    writeFileSync(join(folder, 'letter.pdf'), '%PDF-1.4 someone else’s letter');
    mkdirSync(join(folder, 'folder.pdf'));
    for (const output of ['leg.yaml', 'link.yaml', 'letter.pdf', 'folder.pdf']) {
      const { code, err } = fairlath(['print', 'leg.yaml', '-o', output], folder);
      expect(code).toBe(2);
      expect(err).toContain(output);
    }
    expect(readFileSync(join(folder, 'letter.pdf'), 'utf8')).toContain('someone else');
    expect(readFileSync(join(folder, 'leg.yaml'), 'utf8')).toBe(sampleText('hall-bench-leg.yaml'));
    expect(fairlath(['print', 'leg.yaml', '-o', 'letter.pdf', '--force'], folder).code).toBe(0);
  });

  test('a folder that is not there is told, and nothing is written', () => {
    const folder = freshFolder();
    const { code, err } = fairlath(['print', leg, '-o', 'no/such/a.pdf'], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/no\/such\/a\.pdf/);
    expect(readdirSync(folder)).toEqual([]);
  });
});
