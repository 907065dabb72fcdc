import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { LEG, RAIL } from '../../export/joinery.ts';
import { fairlath, freshFolder } from '../run.ts';

const folder = freshFolder();
const job = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return name;
};
const leg = job('leg.yaml', LEG);
const rail = job('rail.yaml', RAIL);

describe('fairlath show', () => {
  test('tells ends and joints in words', () => {
    const { out, code } = fairlath(['show', leg], folder);
    expect(code).toBe(0);
    expect(out).toMatch(
      /right +miter 6°, blade tilt 4°; rake 6°, splay 4°; lean 7\.2° on a sight line of 33\.6°/,
    );
    expect(out).toMatch(/long point: station 34, offset 0, on the other face/);
    expect(out).toMatch(/2 {2}mortise: at 5, out 1: 2 × 3\/8, 1 deep/);
    expect(fairlath(['show', rail], folder).out).toMatch(/left +miter -45°/);
  });

  test('its JSON has them in millimetres and degrees', () => {
    const { ends, joints } = JSON.parse(fairlath(['show', leg, '--json'], folder).out);
    expect(ends.map(({ side }: { side: string }) => side)).toEqual(['left', 'right']);
    expect(ends[1]).toMatchObject({ rakeDeg: expect.closeTo(6, 9), splayDeg: expect.closeTo(4, 9) });
    expect(ends[1].longPoint).toMatchObject({ at: [expect.closeTo(34 * 25.4, 6), 0], on: 'back' });
    expect(ends[1].trueShape).toHaveLength(4);
    expect(joints).toHaveLength(8);
    expect(joints[2]).toMatchObject({
      number: 3,
      kind: 'hole',
      at: [expect.closeTo(28 * 25.4, 6), expect.closeTo(1.5 * 25.4, 6)],
      lean: { leanDeg: expect.closeTo(2, 9), toward: 'left' },
      label: 'stretcher',
    });
  });

  test('draws them', () => {
    expect(fairlath(['show', leg, '--picture', 'leg.svg'], folder).code).toBe(0);
  });
});

describe('fairlath print of a mirrored pair', () => {
  test('of a part with joints writes both patterns, each sheet with its way to the page', () => {
    const { file, sheets, code, mirrored } = JSON.parse(fairlath(['print', leg, '--json'], folder).out);
    expect(file).toBe('leg.pdf');
    expect(mirrored.code).not.toBe(code);
    const pages = sheets.map(({ page }: { page: number }) => page);
    expect(new Set(pages).size).toBe(sheets.length);
    for (const { name, toPage, ...sheet } of sheets) {
      const [a, b, c, d] = toPage;
      expect(Math.sign(a * d - b * c)).toBe(sheet.mirrored ? -1 : 1);
      expect(name.endsWith('m')).toBe(sheet.mirrored === true);
    }
    expect(sheets.some((sheet: { mirrored?: boolean }) => sheet.mirrored)).toBe(true);
  });

  test('of a part alike on both faces writes one and says how the other comes of it', () => {
    expect(fairlath(['print', rail], folder).out).toMatch(
      /Flip the pattern over on its reference line for the other of the pair\./,
    );
  });
});

test('what a saw is set to has one name: the blade’s tilt', () => {
  const words = ['show', 'saw'].map((command) => fairlath([command, leg], folder).out).join('\n');
  const told = words.match(/\S+ tilt\b.*/g) ?? [];
  expect(told.length).toBeGreaterThan(4);
  for (const one of told) expect(one).toMatch(/^(blade|blade’s) tilt|^or tilt the blade/);
  expect(words).not.toMatch(/bevel/);
});
