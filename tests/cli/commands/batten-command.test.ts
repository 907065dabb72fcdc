import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fairlath, freshFolder, root } from '../run.ts';

const leg = join(root, 'samples/hall-bench-leg.yaml');
const json = (args: readonly string[]) => JSON.parse(fairlath([...args, '--json']).out);

describe('fairlath batten', () => {
  test('a shallow strip over its middle is the centre-loaded beam', () => {
    // P = 48·E·I·y/L³ (AISC Table 3-23, case 7). White oak 12,300 MPa (1,780,000 psi; Wood Handbook, Table 5-3),
    // and 10 % more without shear (its footnote); I = 25·6³/12; y = 5 mm, L = 1000 mm.
    const { nails, strain } = json([
      ...['batten', '--curve', 'batten', '--chord', '1000', '--rise', '5', '--units', 'mm'],
      ...['--species', 'white oak', '--thickness', '6', '--width', '25'],
    ]);
    const beam = (48 * 1.1 * 12_300 * ((25 * 6 ** 3) / 12) * 5) / 1000 ** 3;
    expect(nails[1].force / beam).toBeCloseTo(1, 3);
    expect(nails[0].force / nails[1].force).toBeCloseTo(0.5, 3);
    // κ = 12·h/c² (the same beam's moment over EI), strain t·κ/2
    expect(strain / ((6 * 12 * 5) / 1000 ** 2 / 2)).toBeCloseTo(1, 3);
  });

  test('the thickest strip it names is safe, and a thicker one is told of', () => {
    const { maxThickness, safeStrain } = json(['batten', leg]);
    const at = (thickness: number) => fairlath(['batten', leg, '--thickness', `${thickness} mm`, '--json']);
    const safe = JSON.parse(at(maxThickness * 0.999).out);
    expect(safe.strain).toBeLessThan(safeStrain);
    expect(safe.verdict).toBe('safe');
    const thick = JSON.parse(at(maxThickness * 1.2).out);
    expect(thick.verdict).toBe('risky');
    expect(thick.warnings.map(({ code }: { code: string }) => code)).toContain('strip.risky');
    expect(JSON.parse(at(maxThickness * 3).out).verdict).toBe('breaks');
  });

  test('for people: the strip, its nails, and what to take care of', () => {
    const { out, code } = fairlath(['batten', leg]);
    expect(code).toBe(0);
    expect(out).toMatch(/White oak, .* thick, 3\/4 in wide/);
    expect(out.match(/station .*: (above|below) the strip/g)).toHaveLength(3);
    expect(out).toMatch(/Hold it while you draw each nail/);
  });

  test('nails are told in the size they are bought, and a curve of no nails says why', () => {
    const arch = ['batten', join(root, 'samples/garden-arch-rail.yaml')];
    expect(fairlath(arch).out).toMatch(/The middles of 2\.5 mm nails/);
    const quick = ['batten', '--curve', 'arc', '--chord', '28', '--rise', '3/4'];
    expect(fairlath(quick).out).toMatch(/No strip takes an arc of itself.*offsets/);
    expect(fairlath(quick.with(2, 'bow')).out).toMatch(/a string draws its ends together/);
    expect(fairlath(arch).out).not.toMatch(/No strip takes/);
  });

  test.each([
    { args: ['--species', 'oak'], says: /White oak.*Northern red oak|Northern red oak.*White oak/ },
    { args: ['--species', 'white oka'], says: /White oak/ },
    { args: ['--thickness', '0'], says: /--thickness/ },
    { args: ['--width', '3/4 ounce'], says: /--width/ },
  ])('$args is told with a cure', ({ args, says }) => {
    const { code, err } = fairlath(['batten', leg, ...args]);
    expect(code).toBe(2);
    expect(err).toMatch(says);
  });

  test('a picture has the strip over its nails, and is never drawn over the job', () => {
    const folder = freshFolder();
    expect(fairlath(['batten', leg, '--picture', 'strip.svg'], folder).code).toBe(0);
    const drawn = readFileSync(join(folder, 'strip.svg'), 'utf8');
    expect(drawn).toContain('3. station 34 in');
    const own = join(folder, 'own.yaml');
    writeFileSync(own, readFileSync(leg));
    expect(fairlath(['batten', own, '--picture', own, '--force'], folder).code).toBe(2);
    expect(readFileSync(own, 'utf8')).toBe(readFileSync(leg, 'utf8'));
    const bracket = join(root, 'samples/wall-shelf-bracket.yaml');
    expect(fairlath(['batten', bracket, '--picture', 'none.svg'], folder).err).toMatch(
      /has no batten.*fairlath show JOB --picture/,
    );
    expect(existsSync(join(folder, 'none.svg'))).toBe(false);
  });

  test('a straight part bends no strip', () => {
    const folder = freshFolder();
    writeFileSync(
      join(folder, 'a.yaml'),
      'part: Rail\nunits: mm\nedges:\n  a:\n    - from: [0, 0]\n    - line: [30, 0]\n',
    );
    const { code, err } = fairlath(['batten', 'a.yaml'], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/straightedge/);
  });
});

describe('fairlath show tells more of a strip', () => {
  test('how far the arc, the bow and the spline of the same rise lie off', () => {
    const { edges } = json(['show', '--curve', 'batten', '--chord', '1000', '--rise', '1', '--units', 'mm']);
    const { apart } = edges[0].runs[0];
    const arc = apart.find(({ kind }: { kind: string }) => kind === 'arc');
    // Shallow: the arc is 4x(1 − x), the beam 3x − 4x³ of the rise; they part most where 4x³ − 4x² + x does:
    // at x = 1/6, by 2/27.
    expect(arc.worst).toBeCloseTo(2 / 27, 4);
    expect(Math.min(arc.station, 1000 - arc.station)).toBeCloseTo(1000 / 6, 0);
  });

  test('and how fair each edge is', () => {
    const { edges } = json(['show', join(root, 'samples/hall-bench-stretcher.yaml')]);
    expect(edges[0].fairness.remarks.map(({ code }: { code: string }) => code)).toEqual([
      'fairness.corner',
      'fairness.corner',
    ]);
    expect(fairlath(['show', leg]).out).toMatch(/back:[\s\S]*fair: one smooth curve/);
  });

  test('a picture is written whole, and replaces only one of ours', () => {
    const folder = freshFolder();
    const file = join(folder, 'leg.svg');
    expect(fairlath(['show', leg, '--picture', file]).code).toBe(0);
    const first = readFileSync(file, 'utf8');
    expect(first).toMatch(/^<svg [^>]*width="260mm"/);
    expect(fairlath(['show', leg, '--picture', file]).code).toBe(0);
    expect(readFileSync(file, 'utf8')).toBe(first);
    writeFileSync(file, '<svg>a drawing of someone else</svg>');
    const { code, err } = fairlath(['show', leg, '--picture', file]);
    expect(code).toBe(2);
    expect(err).toMatch(/not one of ours/);
  });
});
