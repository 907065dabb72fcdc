import { existsSync, readFileSync, rmSync } from 'node:fs';
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
