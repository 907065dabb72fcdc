import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { SAMPLES } from '../../part/jobs.ts';
import { fairlath, freshFolder, LEG, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const folder = freshFolder();
afterAll(() => rmSync(folder, { recursive: true }));
const sample = (name: string): string => join(root, 'samples', name);
const json = (args: readonly string[]) => JSON.parse(fairlath(['saw', ...args, '--json']).out);

function job(text: string): string {
  const file = join(folder, 'job.yaml');
  writeFileSync(file, text);
  return file;
}

const SPLAYED = `part: Splayed leg
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

const NO_STOCK = SPLAYED.replace(/stock:.*\n/, '').replace(/ends:[\s\S]*/, '');

const MISTAKES: readonly Mistake[] = [
  [['saw', LEG, '--table', '16'], 'saw.table', '--table'],
  [['saw', LEG, '--table', '0x16'], 'length.zero', '--table'],
  [['saw', LEG, '--blade', '3in'], 'saw.blade-width', '--blade'],
  [['saw', LEG, '--blade', '1/2', '--kerf', '0.02in'], 'saw.kerf', '--kerf'],
  [['saw', LEG, '--kerf', '1.2mm'], 'command.belongs'],
  [['saw', LEG, '--blade-thickness', '0.6mm'], 'command.belongs'],
  [
    ['saw', LEG, '--blade', '1/2', '--blade-thickness', '0.6mm', '--gauge', '0.7mm'],
    'command.repeated',
    '--blade-thickness',
  ],
  [['saw', LEG, '--depth-at-45', '2'], 'saw.depth', '--depth-at-45'],
  [['saw', LEG, '--depth-of-cut', '2', '--depth-at-45', '3'], 'saw.depth', '--depth-at-45'],
  [['saw', LEG, '--height', 'tall'], 'length.not-a-number', '--height'],
  [['saw', LEG, '--picture', 'saw.pdf'], 'file.other-kind'],
];

describe('fairlath saw', () => {
  test.each(SAMPLES)('gives the settings of the saw for the sample %s', (name) => {
    const { ends, blade, support, units } = json([sample(name)]);
    expect(units).toBe('mm');
    expect(ends.length === 0 || ends.length === 2).toBe(true);
    expect(blade.widest).toBeGreaterThan(0);
    expect(support.mass).toBeGreaterThan(0);
    expect(support.balanceStation).toBeGreaterThan(0);
  });

  test('gives the angles of an end in degrees and its depth in mm', () => {
    const [left, right] = json([job(SPLAYED)]).ends;
    expect(left).toMatchObject({ side: 'left', miterDeg: 0, bevelDeg: 0, leanDeg: 0, sightDeg: 0 });
    expect(left.bladeDepth).toBeCloseTo(88.9, 9);
    expect(right).toMatchObject({ side: 'right', passes: 'two faces' });
    expect(right.bevelDeg).toBeCloseTo(12, 9);
    // Leaning through the wood only: as much as the bevel, straight at the face
    expect([right.leanDeg, right.sightDeg]).toEqual([expect.closeTo(12, 9), expect.closeTo(90, 9)]);
    expect(right.bladeDepth).toBeCloseTo(88.9 / Math.cos(Math.PI / 15), 9);
  });

  test.each([
    ['3 1/8', 'two faces'],
    ['4', 'one face'],
  ])('a table saw that cuts %s deep takes 3 1/2 in at 12° in %s', (depth, passes) => {
    const { ends, tableSaw } = json([job(SPLAYED), '--depth-of-cut', depth]);
    expect(ends[1].passes).toBe(passes);
    expect(ends[1].bladeReach).toBeLessThanOrEqual(tableSaw.depthOfCut);
  });

  test('without a thickness or a wood there is no weight, and a warning for each', () => {
    const file = job(NO_STOCK);
    const { support, ends, warnings } = json([file]);
    expect([support.mass, ends[0].bladeDepth]).toEqual([null, null]);
    expect(support.balanceStation).toBeCloseTo(17 * 25.4, 6);
    expect(warnings.map(({ code }: { code: string }) => code)).toEqual(
      expect.arrayContaining(['saw.no-thickness', 'saw.no-species']),
    );
  });

  test('draws a picture, and never over a file of the user', () => {
    expect(fairlath(['saw', sample('hall-bench-leg.yaml'), '--picture', 'saw.svg'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'saw.svg'), 'utf8')).toMatch(/^<svg /);
    const own = job(SPLAYED);
    expect(fairlath(['saw', own, '--picture', own, '--force'], folder)).toMatchObject({
      code: 2,
      faults: [{ code: 'file.is-input' }],
    });
    expect(readFileSync(own, 'utf8')).toBe(SPLAYED);
  });

  test('a straight line has no tightest bend', () => {
    expect(json([job(SPLAYED)]).blade).toMatchObject({ tightestConcave: null, tightestConvex: null });
  });

  test('tells whether the maker’s own blade turns the line', () => {
    // A half circle of 3 in radius, and half a kerf more: the 3/4 in blade asks for 5 1/2
    const arc = ['--curve', 'arc', '--chord', '6', '--rise', '3'];
    const { blade } = json([...arc, '--blade', '3/4']);
    expect(blade.tightestConvex).toBeCloseTo(3 * 25.4, 6);
    expect(blade.widest).toBeCloseTo(12.7, 9);
    expect(blade.asked).toMatchObject({ turns: false, leastRadius: expect.closeTo(5.5 * 25.4, 9) });
    expect(json([...arc, '--blade', '1/2']).blade.asked.turns).toBe(true);
  });

  test('lists all places as tight as the tightest, and the first by itself', () => {
    const args = ['--curve', 'ellipse', '--chord', '10', '--rise', '2'];
    const { blade } = json(args);
    expect(blade.tightestConvexPlaces).toMatchObject([{ station: 0 }, { station: expect.closeTo(254, 6) }]);
    expect(blade.tightestConvexAt).toEqual(blade.tightestConvexPlaces[0]);
    expect([blade.tightestConcaveAt, blade.tightestConcavePlaces]).toEqual([null, []]);
  });

  test('a table as long as the board needs no stand', () => {
    expect(json([sample('hall-bench-leg.yaml')]).support.stands).toHaveLength(2);
    expect(json([sample('hall-bench-leg.yaml'), '--table', '40x30']).support.stands).toEqual([]);
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords(
      'saw',
      [
        ['saw', '--help'],
        ...SAMPLES.map((name) => ['saw', `samples/${name}`]),
        ['saw', 'splayed.yaml', '--depth-of-cut', '3 1/8'],
        ['saw', 'splayed.yaml', '--depth-of-cut', '4', '--table', '40x30'],
        ['saw', 'no-stock.yaml'],
        ['saw', '--curve', 'ellipse', '--chord', '10', '--rise', '2'],
        ['saw', '--curve', 'arc', '--chord', '6', '--rise', '3', '--blade', '3/4'],
        ...MISTAKES.map(([args]) => args),
      ],
      { 'splayed.yaml': SPLAYED, 'no-stock.yaml': NO_STOCK },
    ));
});
