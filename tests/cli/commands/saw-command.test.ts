import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { SAMPLES } from '../../part/jobs.ts';
import { fairlath, freshFolder, root } from '../run.ts';

const folder = freshFolder();
afterAll(() => rmSync(folder, { recursive: true }));
const sample = (name: string): string => join(root, 'samples', name);
const json = (args: readonly string[]) => JSON.parse(fairlath(['saw', ...args, '--json']).out);

function job(text: string): string {
  const file = join(folder, 'job.yaml');
  writeFileSync(file, text);
  return file;
}

const LEG = `part: Splayed leg
units: in
graduation: 1/16
stock: {species: white oak, length: 36, width: 5, thickness: 3 1/2}
edges:
  front:
    - from: [0, 0]
    - line: [34, 0]
  back:
    - from: [0, 3]
    - line: [34, 3]
ends:
  right: {bevel: 12}
`;

describe('fairlath saw', () => {
  test.each(SAMPLES)('%s is sawn, told and in figures', (name) => {
    const told = fairlath(['saw', sample(name)]);
    expect(told).toMatchObject({ code: 0, err: '' });
    for (const block of ['Blade of the band saw', 'Support:', 'Order of cuts:', 'Take care:'])
      expect(told.out).toContain(block);
    const { ends, blade, support, units } = json([sample(name)]);
    expect(units).toBe('mm');
    expect(ends.length === 0 || ends.length === 2).toBe(true);
    expect(blade.widest).toBeGreaterThan(0);
    expect(support.mass).toBeGreaterThan(0);
    expect(support.balanceStation).toBeGreaterThan(0);
  });

  test('an end in figures: angles in degrees, depth in mm', () => {
    const [left, right] = json([job(LEG)]).ends;
    expect(left).toMatchObject({ end: 'left', miterDeg: 0, bevelDeg: 0, leanDeg: 0, sightDeg: 0 });
    expect(left.bladeDepth).toBeCloseTo(88.9, 9);
    expect(right).toMatchObject({ end: 'right', passes: 'two faces' });
    expect(right.bevelDeg).toBeCloseTo(12, 9);
    // Leaning through the wood only: as much as the bevel, straight at the face
    expect([right.leanDeg, right.sightDeg]).toEqual([expect.closeTo(12, 9), expect.closeTo(90, 9)]);
    expect(right.bladeDepth).toBeCloseTo(88.9 / Math.cos(Math.PI / 15), 9);
  });

  test('depth of cut in words, on the maker’s rule', () => {
    expect(fairlath(['saw', job(LEG), '--depth-of-cut', '3 1/8']).out).toContain(
      '3 1/2 in thick at a blade tilt of 12° needs 3 9/16 in full of blade, this saw gives 3 1/8 in: cut from two faces',
    );
    expect(fairlath(['saw', job(LEG), '--depth-of-cut', '4']).out).toContain('this saw gives 4 in: one pass');
  });

  test('without a thickness or a wood no weight is made up, and the key to add is named', () => {
    const file = job(LEG.replace(/stock:.*\n/, '').replace(/ends:[\s\S]*/, ''));
    const { support, ends, warnings } = json([file]);
    expect([support.mass, ends[0].bladeDepth]).toEqual([null, null]);
    expect(support.balanceStation).toBeCloseTo(17 * 25.4, 6);
    expect(warnings.map(({ code }: { code: string }) => code)).toEqual(
      expect.arrayContaining(['saw.no-thickness', 'saw.no-species']),
    );
    expect(fairlath(['saw', file]).err).toMatch(
      /"thickness: 1 3\/4 in" under stock[\s\S]*"species: white oak"/,
    );
  });

  test('a picture has the board with its stands, and is never drawn over a file of the maker’s', () => {
    expect(fairlath(['saw', sample('hall-bench-leg.yaml'), '--picture', 'saw.svg'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'saw.svg'), 'utf8')).toContain(
      'stand before the table, as the cut begins',
    );
    const own = job(LEG);
    expect(fairlath(['saw', sample('hall-bench-leg.yaml'), '--picture', own], folder).code).toBe(2);
    expect(readFileSync(own, 'utf8')).toBe(LEG);
  });

  test('a straight line has no tightest bend', () => {
    expect(json([job(LEG)]).blade).toMatchObject({ tightestConcave: null, tightestConvex: null });
  });

  test('the maker’s own blade is asked about', () => {
    // A half circle of 3 in radius, and half a kerf more: the 3/4 in blade asks for 5 1/2
    const arc = ['--curve', 'arc', '--chord', '6', '--rise', '3'];
    const { blade } = json([...arc, '--blade', '3/4']);
    expect(blade.tightestConvex).toBeCloseTo(3 * 25.4, 6);
    expect(blade.widest).toBeCloseTo(12.7, 9);
    expect(blade.asked).toMatchObject({ turns: false, leastRadius: expect.closeTo(5.5 * 25.4, 9) });
    expect(json([...arc, '--blade', '1/2']).blade.asked.turns).toBe(true);
  });

  test('all places as tight as the tightest are told, the first of them by itself', () => {
    const args = ['--curve', 'ellipse', '--chord', '10', '--rise', '2'];
    const { blade } = json(args);
    expect(blade.tightestConvexPlaces).toMatchObject([{ station: 0 }, { station: expect.closeTo(254, 6) }]);
    expect(blade.tightestConvexAt).toEqual(blade.tightestConvexPlaces[0]);
    expect([blade.tightestConcaveAt, blade.tightestConcavePlaces]).toEqual([null, []]);
    expect(fairlath(['saw', ...args]).out).toMatch(/tightest round .* at stations 0 in \(.*\), 10 in \(/);
  });

  test('a table as long as the board needs no stand', () => {
    expect(json([sample('hall-bench-leg.yaml')]).support.stands).toHaveLength(2);
    expect(json([sample('hall-bench-leg.yaml'), '--table', '40x30']).support.stands).toEqual([]);
  });

  test.each([
    [['--table', '16'], /--table: "16" is no size/],
    [['--table', '0x16'], /--table/],
    [['--blade', '3in'], /^error: --blade: .*1 1\/4 in or less/],
    [
      ['--blade', '1/2', '--kerf', '0.02in'],
      /--kerf: a kerf of 0\.02 in leaves no room for a band 0\.025 in thick/,
    ],
    [['--kerf', '1.2mm'], /^error: --kerf belongs to --blade/],
    [['--gauge', '0.6mm'], /^error: --gauge belongs to --blade/],
    [['--depth-at-45', '2'], /--depth-at-45: .*--depth-of-cut/],
    [['--depth-of-cut', '2', '--depth-at-45', '3'], /--depth-at-45: .*more than/],
    [['--height', 'tall'], /--height/],
  ])('%s is told with a cure', (args, says) => {
    const { code, err } = fairlath(['saw', sample('hall-bench-leg.yaml'), ...args]);
    expect(code).toBe(2);
    expect(err).toMatch(says);
  });
});
