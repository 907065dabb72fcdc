import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SAMPLES, sampleText } from '../part/jobs.ts';
import { fairlath, freshFolder, root } from './run.ts';

const leg = join(root, 'samples/hall-bench-leg.yaml');

describe('fairlath show', () => {
  test.each(SAMPLES)('tells the sample %s in words and in figures', (name) => {
    const told = fairlath(['show', `samples/${name}`]);
    expect(told).toMatchObject({ code: 0, err: '' });
    expect(told.out).toContain(/part: (.*)/.exec(sampleText(name))![1]!);
    const { edges, units } = JSON.parse(fairlath(['show', `samples/${name}`, '--json']).out);
    expect(units).toBe('mm');
    for (const { runs } of edges)
      for (const run of runs) {
        expect(run.length).toBeGreaterThanOrEqual(
          Math.hypot(run.to[0] - run.from[0], run.to[1] - run.from[1]) - 1e-9,
        );
        expect(run.endAnglesDeg).toHaveLength(2);
      }
  });

  test('a quick arc of chord 600 and rise 75 has radius 637.5 and length 624.6956', () => {
    // Euclid III.35, as in the arc's own tests
    const { edges } = JSON.parse(
      fairlath(['show', '--curve', 'arc', '--chord', '600', '--rise', '75', '--units', 'mm', '--json']).out,
    );
    expect(edges[0].runs[0].minRadius.radius).toBeCloseTo(637.5, 6);
    expect(edges[0].length).toBeCloseTo(624.6956, 4);
  });

  test('a quick batten tells the nail and, apart from it, the apex in its longer span', () => {
    const { edges } = JSON.parse(
      fairlath(['show', '--curve', 'batten', '--chord', '28', '--rise', '3/4', '--nail', '12', '--json']).out,
    );
    const [run] = edges[0].runs;
    expect(run.pins[1]).toEqual([304.8, 19.05]);
    expect(run.apex.station).toBeGreaterThan(12.5 * 25.4);
    expect(run.apex.rise).toBeGreaterThan(0.75 * 25.4);
  });
});

const splayed = join(root, 'samples/hall-bench/leg.yaml');

describe('fairlath offsets', () => {
  test('tells where a slanting cut leaves an edge short, and what lies past that', () => {
    const { out } = fairlath(['offsets', splayed, '--edge', 'outer', '--every', '3']);
    expect(out).toMatch(/\n {2}0 +0 +past the end\n/);
    expect(out).toMatch(/end of the wood/);
    const { edges } = JSON.parse(fairlath(['offsets', splayed, '--json']).out);
    for (const { rows } of edges)
      expect(rows.filter(({ wood }: { wood?: string }) => wood === 'ends').length).toBeGreaterThan(0);
  });

  test('gives the stations asked for, rounded to the rule, full or shy', () => {
    const { out } = fairlath(['offsets', leg, '--edge', 'back', '--at', '0, 12,34']);
    expect(out).toMatch(/12 +3 1\/4\n/);
    expect(out).toMatch(/0 +1 5\/8\n/);
  });

  test('its JSON in mm and its CSV in the unit of the job carry the same numbers', () => {
    const args = ['offsets', leg, '--edge', 'back', '--every', '100 mm'];
    const { edges } = JSON.parse(fairlath([...args, '--json']).out);
    const rows = fairlath([...args, '--csv'])
      .out.trim()
      .split('\n')
      .slice(1);
    expect(rows).toHaveLength(edges[0].rows.length);
    rows.forEach((row, i) => {
      const [, station, offset] = row.split(',');
      expect(Number(station) * 25.4).toBeCloseTo(edges[0].rows[i].station, 5);
      expect(Number(offset) * 25.4).toBeCloseTo(edges[0].rows[i].offset, 5);
    });
  });

  test('from the chord, the ends are 0', () => {
    const { out } = fairlath(['offsets', leg, '--edge', 'back', '--from', 'chord', '--json']);
    const { rows } = JSON.parse(out).edges[0];
    expect(rows[0]).toMatchObject({ station: 0, shown: '0' });
    expect(Math.abs(rows.at(-1).offset)).toBeLessThan(1e-9);
  });

  test('a line that passes a station more than once is a warning', () => {
    const args = ['--curve', 'arc', '--chord', '100', '--rise', '80', '--units', 'mm'];
    const { err, code } = fairlath(['offsets', ...args, '--at', '-5']);
    expect(code).toBe(0);
    expect(err).toMatch(/passes station -5 2 times/);
  });
});

describe('fairlath new', () => {
  test('writes a starter that show and print take as it is, and never overwrites', () => {
    const folder = freshFolder();
    expect(fairlath(['new', 'leg.yaml'], folder).code).toBe(0);
    expect(fairlath(['show', 'leg.yaml'], folder).code).toBe(0);
    expect(fairlath(['print', 'leg.yaml'], folder).code).toBe(0);
    expect(existsSync(join(folder, 'leg.pdf'))).toBe(true);
    const before = readFileSync(join(folder, 'leg.yaml'));
    const again = fairlath(['new', 'leg.yaml'], folder);
    expect(again.code).toBe(2);
    expect(again.err).toMatch(/never overwrites/);
    expect(readFileSync(join(folder, 'leg.yaml'))).toEqual(before);
  });

  test('writes every sample with --samples, and none over a file that exists', () => {
    const folder = freshFolder();
    const { code, out } = fairlath(['new', '--samples', '--json'], folder);
    expect(code).toBe(0);
    const { files } = JSON.parse(out) as { files: string[] };
    for (const name of [...SAMPLES, 'hall-bench-leg-measured.csv', join('hall-bench', 'leg.yaml')]) {
      expect(files).toContain(join('samples', name));
      expect(readFileSync(join(folder, 'samples', name))).toEqual(readFileSync(join(root, 'samples', name)));
    }
    rmSync(join(folder, files[0]!));
    expect(fairlath(['new', '--samples'], folder)).toMatchObject({ code: 2, out: '' });
    expect(existsSync(join(folder, files[0]!))).toBe(false);
  });

  test.each([[[]], [['leg.yaml', '--samples']]])('wants FILE or --samples: %j', (args) => {
    expect(fairlath(['new', ...args], freshFolder())).toMatchObject({ code: 2, out: '' });
  });
});

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
