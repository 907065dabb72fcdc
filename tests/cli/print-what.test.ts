import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type PrintTarget, requireOneTarget } from '../../src/cli/options/sheet-options.ts';
import { fairlath, freshFolder, root } from './run.ts';

const leg = join(root, 'samples/hall-bench-leg.yaml');
const rail = join(root, 'samples/garden-arch-rail.yaml');

const told = (args: readonly string[]) => {
  const { code, out, err } = fairlath(['print', ...args, '--json'], freshFolder());
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return JSON.parse(out);
};

describe('instead of the pattern print gives', () => {
  test.each([
    ['a gauge', ['--gauge']],
    ['a template', ['--template', '--bush', '5/8', '--bit', '1/2']],
    ['a form', ['--form', '--thickness', '1']],
  ])('%s, a PDF of its own with the same keys in its JSON', (_name, args) => {
    const folder = freshFolder();
    const { code, out } = fairlath(['print', leg, ...args, '-o', 'a.pdf', '--json'], folder);
    expect(code).toBe(0);
    const { sheets, checks, paper, code: pattern } = JSON.parse(out);
    expect(paper).toBe('letter');
    expect(pattern).toMatch(/^[2-9A-Z]{6}$/);
    expect(sheets[0]).toMatchObject({ name: 'A1', toPage: expect.any(Array) });
    expect(checks.length).toBeGreaterThanOrEqual(3);
    const first = readFileSync(join(folder, 'a.pdf'));
    expect(fairlath(['print', leg, ...args, '-o', 'a.pdf'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'a.pdf'))).toEqual(first);
    expect(readdirSync(folder)).toEqual(['a.pdf']);
  });

  test('a gauge, with a word where the edge passes a station twice', () => {
    const bulge = ['--curve', 'arc', '--chord', '100', '--rise', '95', '--units', 'mm'];
    const { code, err } = fairlath(['print', ...bulge, '--gauge', '--every', '50'], freshFolder());
    expect(code).toBe(0);
    expect(err).toMatch(/passes stations 0, 100 more than once/);
  });

  test('a gauge whose readings, typed back, are within', () => {
    const { gauge } = told([leg, '--gauge', '--every', '2']);
    expect(gauge.strips.map(({ edge }: { edge: string }) => edge)).toEqual(['back']);
    const stations: { station: number; offset: number }[] = gauge.strips[0].stations;
    const readings = stations.flatMap(({ station, offset }) => ['--reading', `${station}mm=${offset}mm`]);
    const check = JSON.parse(fairlath(['check', leg, '--edge', 'back', ...readings, '--json']).out);
    expect(check.worst).toBeLessThan(1e-5);
    expect(check.verdict).toBe('within');
    expect(gauge.tolerance).toBeCloseTo(25.4 / 32, 12);
  });

  test('a template smaller by half of guide less bit: 3/4 and 1/2 in give 1/8', () => {
    const { template } = told([leg, '--template', '--bush', '3/4', '--bit', '1/2']);
    expect(template.inside).toBeCloseTo(25.4 / 8, 12);
    expect(told([rail, '--template', '--bearing', '12', '--bit', '12', '--half']).half).toBeDefined();
  });

  test('tools are told in their own size and paper by its name, not as the rule or the option have them', () => {
    const args = ['print', rail, '--template', '--bush', '17', '--bit', '12.7', '--paper', 'roll:610mm'];
    const { out } = fairlath([...args, '-o', 'tools.pdf'], freshFolder());
    expect(out).toContain('For a bush of 17 mm and a bit of 12.7 mm: smaller all round by 2.15 mm.');
    expect(out).toMatch(/of 610 mm roll/);
  });

  test('a form with its plies and what springs back', () => {
    const { form } = told([rail, '--form', '--edge', 'lower', '--thickness', '75', '--plies', '5']);
    expect(form).toMatchObject({ edge: 'lower', species: 'White oak', plies: 5, plyThickness: 15 });
    expect(form.springback.share).toBeCloseTo(1 / 25, 12);
    expect(form.line.askedRise).toBeCloseTo(150, 6);
  });

  test.each([
    { args: ['--gauge', '--form'], says: /--gauge and --form exclude each other/ },
    { args: ['--gauge', '--turn', '90'], says: /--turn: .*along its sheets/ },
    { args: ['--gauge', '--edge', 'front'], says: /reads 0 all along/ },
    { args: ['--gauge', '--every', '1/1000000'], says: /--every: .*rows/ },
    { args: ['--template'], says: /--bush.*--bearing/ },
    { args: ['--template', '--bush', '5/8'], says: /--bit 1\/2/ },
    {
      args: ['--template', '--bush', '1/2', '--bit', '5/8'],
      says: /5\/8 in does not pass through a bush of 1\/2 in/,
    },
    { args: ['--form'], says: /--thickness, --plies or both/ },
    { args: ['--form', '--plies', '1'], says: /--plies: .*Use 2 or more/ },
    { args: ['--form', '--plies', 'many'], says: /no number of plies/ },
    { args: ['--form', '--edge', 'front', '--plies', '4'], says: /no curve to bend plies to/ },
    { args: ['--form', '--plies', '4', '--species', 'oak'], says: /--species: .*White oak/ },
  ])('a mistake is told with its cure: print $args', ({ args, says }) => {
    const folder = freshFolder();
    const { code, err, out } = fairlath(['print', leg, ...args], folder);
    expect(err).toMatch(says);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(readdirSync(folder)).toEqual([]);
  });
});

test.each([
  [{ gauge: true, template: true }, /--gauge and --template exclude each other/],
  [{ template: true, form: true }, /--template and --form exclude each other/],
  [{ gauge: true, half: true }, /walked along the whole part/],
  [{ form: true, half: true }, /built in one piece/],
  [{ bush: '5/8' }, /--bush belongs to --template/],
  [{ from: 'chord' }, /--from belongs to --gauge/],
  [{ gauge: true, plies: '4' }, /--plies belongs to --form/],
  [{ template: true, bush: '1', edge: 'back' }, /--edge belongs to --gauge or --form/],
] as const)('options that do not go together are told: %o', (options, says) => {
  expect(() => requireOneTarget(options as PrintTarget)).toThrow(says);
});
