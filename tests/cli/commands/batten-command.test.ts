import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { BRACKET, fairlath, folderWith, folderWithSamples, LEG, RAIL, root } from '../run.ts';
import { expectMistake, expectWords, type Mistake, testMistakes } from '../words.ts';

const json = (args: readonly string[]) => JSON.parse(fairlath([...args, '--json']).out);
const ARC = ['batten', '--curve', 'arc', '--chord', '28', '--rise', '3/4'];
const TIGHT = ['batten', '--curve', 'batten'];
const HELD = [...TIGHT, '--chord', '28', '--rise', '3', '--nail', '12', '--ends', 'held,free'];

const MISTAKES: readonly Mistake[] = [
  [['batten', LEG, '--species', 'oak'], 'species.ambiguous', '--species'],
  [['batten', LEG, '--species', 'white oka'], 'species.unknown', '--species'],
  [['batten', LEG, '--thickness', '0'], 'length.zero', '--thickness'],
  [['batten', LEG, '--width', '3/4 ounce'], 'length.unknown-unit', '--width'],
  [['batten', BRACKET, '--picture', 'none.svg'], 'strip.no-nails', '--picture'],
];

describe('fairlath batten', () => {
  test('a shallow strip over its middle bears the force of the center-loaded beam', () => {
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

  test('the thickest strip it names is safe, and a thicker one gets a warning', () => {
    const { maxThickness, safeStrain } = json(['batten', LEG]);
    const at = (thickness: number) => json(['batten', LEG, '--thickness', `${thickness} mm`]);
    const safe = at(maxThickness * 0.999);
    expect(safe.strain).toBeLessThan(safeStrain);
    expect(safe.verdict).toBe('safe');
    const thick = at(maxThickness * 1.2);
    expect(thick.verdict).toBe('risky');
    expect(thick.warnings.map(({ code }: { code: string }) => code)).toContain('strip.risky');
    expect(at(maxThickness * 3).verdict).toBe('breaks');
  });

  test('the leg has a nail at each end and one between, the arc has none', () => {
    const { nails } = json(['batten', LEG]);
    expect(nails.map(({ edge }: { edge: string }) => edge)).toEqual(['back', 'back', 'back']);
    expect(new Set(nails.map(({ side }: { side: string }) => side)).size).toBe(2);
    expect(json(ARC).nails).toEqual([]);
  });

  test('a bend too tight for every wooden batten names other materials', () => {
    const offered = [
      [2, []],
      [3, ['spring steel']],
      [12, ['spring steel', 'acrylic']],
    ] as const;
    for (const [chord, materials] of offered) {
      const { suitable, alternatives, warnings } = json([
        ...TIGHT,
        '--chord',
        `${chord}`,
        '--rise',
        `${chord / 4}`,
      ]);
      expect(suitable).toBe(false);
      expect(alternatives.map(({ material }: { material: string }) => material)).toEqual(materials);
      expect(warnings.map(({ code }: { code: string }) => code)).toContain('strip.no-wood');
    }
    expect(json(['batten', LEG])).toMatchObject({ suitable: true, alternatives: [] });
    expect(json([...TIGHT, '--chord', '24', '--rise', '6'])).toMatchObject({ suitable: true });
  });

  test('a held end has the place, the length and the moment of its clamp', () => {
    const [end, , free] = json(HELD).nails;
    expect(end).toMatchObject({ side: 'both', centres: [], clamp: { length: 203.2, to: [-203.2, 0] } });
    expect(end.clamp.moment).toBeGreaterThan(0);
    expect(free).not.toHaveProperty('clamp');
  });

  testMistakes(MISTAKES);

  test('draws the strip over its nails, and never over the job', () => {
    const { path } = folderWithSamples();
    expect(fairlath(['batten', LEG, '--picture', 'strip.svg'], path).code).toBe(0);
    expect(existsSync(join(path, 'strip.svg'))).toBe(true);
    expectMistake([['batten', LEG, '--picture', LEG, '--force'], 'file.is-input']);
    expect(readFileSync(join(path, LEG))).toEqual(readFileSync(join(root, LEG)));
  });

  test('a straight part bends no strip', () => {
    const job = 'part: Rail\nunits: mm\nedges:\n  a:\n    - from: [0, 0]\n    - line: [30, 0]\n';
    expect(fairlath(['batten', 'a.yaml'], folderWith({ 'a.yaml': job }))).toMatchObject({
      code: 2,
      faults: [{ code: 'strip.straight' }],
    });
  });

  test('its words are the reviewed ones', () =>
    expectWords('batten', [
      ['batten', '--help'],
      ['batten', LEG],
      ['batten', LEG, '--thickness', '3/4'],
      ['batten', RAIL],
      ARC,
      ARC.with(2, 'bow'),
      HELD,
      [...TIGHT, '--chord', '3', '--rise', '3/4'],
      [...TIGHT, '--chord', '2', '--rise', '1/2'],
      ...MISTAKES.map(([args]) => args),
    ]));
});
