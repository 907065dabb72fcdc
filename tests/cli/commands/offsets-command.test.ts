import { describe, expect, test } from 'vitest';
import { fairlath, LEG } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const SPLAYED = 'samples/hall-bench/leg.yaml';
const BULGE = ['offsets', '--curve', 'arc', '--chord', '100', '--rise', '80', '--units', 'mm', '--at', '-5'];
const json = (args: readonly string[]) => JSON.parse(fairlath(['offsets', ...args, '--json']).out);

const MISTAKES: readonly Mistake[] = [
  [['offsets', LEG, '--edge', 'rear'], 'command.no-such-edge'],
  [['offsets', LEG, '--at', '99'], 'command.no-such-station'],
  [['offsets', LEG, '--every', '0'], 'length.zero', '--every'],
  [['offsets', LEG, '--every', '0.000001'], 'offsets.too-many-stations', '--every'],
  [['offsets', LEG, '--from', 'floor'], 'command.from'],
  [['offsets', LEG, '--at', '6', '--every', '2'], 'command.at-or-every'],
];

describe('fairlath offsets', () => {
  test('marks the stations past a slanting cut, where the edge has no wood', () => {
    for (const { rows } of json([SPLAYED]).edges)
      expect(rows.filter(({ wood }: { wood?: string }) => wood === 'ends').length).toBeGreaterThan(0);
    const [outer] = json([SPLAYED, '--edge', 'outer', '--every', '3']).edges;
    expect(outer.rows[0]).toMatchObject({ station: 0, offset: 0, wood: 'none' });
  });

  test('gives the stations of --at alone, rounded to the rule', () => {
    const [{ rows }] = json([LEG, '--edge', 'back', '--at', '0, 12,34']).edges;
    expect(rows.map(({ station, shown }: { station: number; shown: string }) => [station, shown])).toEqual([
      [0, '1 5/8'],
      [304.8, '3 1/4'],
      [863.6, '2'],
    ]);
  });

  test('its JSON in mm and its CSV in the unit of the job carry the same numbers', () => {
    const args = [LEG, '--edge', 'back', '--every', '100 mm'];
    const { edges } = json(args);
    const rows = fairlath(['offsets', ...args, '--csv'])
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

  test('from the chord both ends are 0', () => {
    const { rows } = json([LEG, '--edge', 'back', '--from', 'chord']).edges[0];
    expect(rows[0]).toMatchObject({ station: 0, shown: '0' });
    expect(Math.abs(rows.at(-1).offset)).toBeLessThan(1e-9);
  });

  test('a line that passes a station twice gets a warning', () => {
    const { code, out } = fairlath([...BULGE, '--json']);
    expect(code).toBe(0);
    expect(JSON.parse(out).warnings).toMatchObject([{ code: 'offsets.doubles-back' }]);
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords('offsets', [
      ['offsets', '--help'],
      ['offsets', LEG, '--edge', 'back', '--every', '6'],
      ['offsets', LEG, '--edge', 'back', '--from', 'chord', '--at', '6, 12'],
      ['offsets', SPLAYED, '--edge', 'outer', '--every', '3'],
      ['offsets', 'samples/hall-bench-stretcher.yaml'],
      BULGE,
      ...MISTAKES.map(([args]) => args),
    ]));
});
