import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SOON_MS } from '../../took.ts';
import { csvOf, offsetsOf } from '../measured-leg.ts';
import { fairlath, fairlathMeasured, folderWith, LEG, MEASURED, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const leg = join(root, LEG);
const BACK = ['check', leg, '--edge', 'back', '--measured'];
const SHORT_BACK = ['check', LEG, '--edge', 'back'];
const ARC = ['check', '--curve', 'arc', '--chord', '600', '--rise', '75', '--units', 'mm'];

const json = (args: readonly string[], folder?: string) =>
  JSON.parse(fairlath([...args, '--json'], folder).out);
const warningsOf = ({ warnings }: { warnings: { code: string }[] }): string[] =>
  warnings.map(({ code }) => code);

const MISTAKES: readonly Mistake[] = [
  [['check', LEG, '--measured', MEASURED], 'check.which-edge'],
  [['check', LEG, '--edge', 'rear', '--measured', MEASURED], 'command.no-such-edge'],
  [SHORT_BACK, 'command.no-readings'],
  [[...SHORT_BACK, '--reading', '6'], 'readings.cells', '--reading'],
  [[...SHORT_BACK, '--reading', '6=1 1'], 'length.ambiguous', '--reading'],
  [[...SHORT_BACK, '--reading', '99=1'], 'check.no-such-station', '--reading'],
  [[...SHORT_BACK, '--reading', '6=1', '--measured', MEASURED], 'command.two-measured'],
  [[...SHORT_BACK, '--reading', '6=1', '--from', 'floor'], 'command.from'],
  [[...SHORT_BACK, '--reading', '6=1', '--tolerance', '0'], 'length.zero', '--tolerance'],
  [[...SHORT_BACK, '--measured', 'nowhere.csv'], 'file.failed'],
  [[...SHORT_BACK, '--measured', MEASURED, '--mirrored'], 'command.no-pair'],
  // The cure names a saw line in inches: a job of either unit takes it.
  [[...ARC, '--reading', '300=75', '--before-sanding'], 'check.no-allowance', '--before-sanding'],
];

describe('fairlath check', () => {
  test('finds the hump of the sample at station 28, and calls the part outside', () => {
    const { readings, worst, verdict, warnings } = json([
      'check',
      LEG,
      '--edge',
      'back',
      '--measured',
      MEASURED,
    ]);
    const hump = readings.find(({ square }: { square: number }) => Math.abs(square) === worst);
    expect(hump.station).toBeCloseTo(28 * 25.4, 6);
    // 3/32 in, within half a graduation of the rule.
    expect(Math.abs(worst - (3 * 25.4) / 32)).toBeLessThan(25.4 / 64);
    expect({ verdict, warnings }).toEqual({ verdict: 'outside', warnings: [] });
  });

  test('its JSON has the keys that programs rely on, and deviation is measured less design', () => {
    const answer = json(['check', LEG, '--edge', 'back', '--measured', MEASURED]);
    expect(Object.keys(answer)).toEqual([
      ...['command', 'part', 'units', 'edge', 'tolerance', 'readings', 'worst', 'rms', 'bestFit', 'verdict'],
      'warnings',
    ]);
    expect(Object.keys(answer.bestFit)).toEqual(['shift', 'rotateDeg', 'worst', 'rms']);
    expect(answer).toMatchObject({ command: 'check', units: 'mm', edge: 'back' });
    expect(answer.readings).toHaveLength(18);
    for (const reading of answer.readings) {
      expect(Object.keys(reading)).toEqual(['station', 'measured', 'design', 'deviation', 'square']);
      expect(reading.deviation).toBeCloseTo(reading.measured - reading.design, 12);
    }
    const off = answer.readings.map(({ square }: { square: number }) => Math.abs(square));
    expect(answer.worst).toBe(Math.max(...off));
  });

  test('the printed table of offsets is within when it is measured as it stands', () => {
    const csv = fairlath(['offsets', leg, '--edge', 'back', '--csv']).out;
    const { worst, verdict } = json([...BACK, 'leg.csv'], folderWith({ 'leg.csv': csv }));
    expect(worst).toBeLessThan(1e-5);
    expect(verdict).toBe('within');
  });

  test('takes readings one by one, and from the chord', () => {
    const args = [...ARC, '--from', 'chord', '--reading', '300=76', '--reading', '0=0'];
    const { readings, tolerance } = json(args);
    expect(readings[0].deviation).toBeCloseTo(1, 9);
    expect(tolerance).toBe(0.5);
  });

  test('separates a crooked setup from a sawing error', () => {
    const [sin, cos] = [Math.sin(0.005), Math.cos(0.005)];
    const rows = offsetsOf('2').map(({ station: x, offset: y }) => ({
      station: x * cos - y * sin,
      offset: x * sin + y * cos,
    }));
    const { bestFit, verdict, ...answer } = json(
      [...BACK, 'leg.csv'],
      folderWith({ 'leg.csv': csvOf(rows) }),
    );
    expect(verdict).toBe('outside');
    expect(bestFit.rotateDeg).toBeCloseTo((0.005 * 180) / Math.PI, 6);
    expect(warningsOf(answer)[0]).toBe('check.set-crooked');
  });

  test('one place sawn wrong is no part that lies crooked, even where a turn would bring all within', () => {
    const rows = offsetsOf('6').map(({ station, offset }) => ({
      station,
      offset: offset + (station > 700 && station < 800 ? 1.4 : 0),
    }));
    const folder = folderWith({ 'leg.csv': csvOf(rows) });
    const { verdict, bestFit, tolerance, warnings } = json([...BACK, 'leg.csv'], folder);
    expect(verdict).toBe('outside');
    expect(bestFit.worst).toBeLessThan(1.5 * tolerance);
    expect(warnings).toEqual([]);
  });

  test('compares the second of a pair with the first, mirrored or not', () => {
    const rows = offsetsOf('2');
    const folder = folderWith({
      'left.csv': csvOf(rows, 0.5),
      'right.csv': csvOf(rows, 1.5),
      'mirror.csv': csvOf(rows, 1.5, -1),
    });
    for (const more of [['right.csv'], ['mirror.csv', '--mirrored']])
      expect(json([...BACK, 'left.csv', '--pair', ...more], folder).pair.worst).toBeCloseTo(1, 4);
  });

  test('suspects a second that was measured mirrored, or from the other end', () => {
    const rows = offsetsOf('2');
    const turned = rows.map((row) => ({ ...row, station: Number((34 * 25.4 - row.station).toFixed(6)) }));
    const folder = folderWith({
      'left.csv': csvOf(rows, 0),
      'mirror.csv': csvOf(rows, 0.2, -1),
      'turned.csv': csvOf(turned, 0.2),
    });
    const codes = (file: string) => warningsOf(json([...BACK, 'left.csv', '--pair', file], folder));
    expect(codes('mirror.csv')).toEqual(['check.second-other-side']);
    expect(codes('turned.csv')).toEqual(['check.second-other-end']);
    expect(codes('left.csv')).toEqual([]);
  });

  test('before sanding a part that is the saw line proud is within', () => {
    const folder = folderWith({ 'leg.csv': csvOf(offsetsOf('2').slice(2, -2), 25.4 / 16) });
    const args = [...BACK, 'leg.csv'];
    expect(json([...args, '--before-sanding'], folder).verdict).toBe('within');
    expect(json(args, folder).verdict).toBe('outside');
  });

  test('its picture replaces only a picture, and none of the readings', () => {
    const rows = offsetsOf('2');
    const folder = folderWith({
      'other.svg': '<svg>not ours</svg>',
      'left.csv': csvOf(rows, 0.5),
      'right.csv': csvOf(rows, 1.5),
    });
    const draw = (picture: string, ...more: string[]) =>
      fairlath([...BACK, 'left.csv', '--pair', 'right.csv', '--picture', picture, ...more], folder);
    expect(draw('pair.svg').code).toBe(0);
    expect(draw('pair.svg').code).toBe(0);
    expect(readFileSync(join(folder, 'pair.svg'), 'utf8')).not.toMatch(/NaN|Infinity|\de-/);
    expect(draw('other.svg').faults).toEqual([{ code: 'file.exists' }]);
    for (const readings of ['left.csv', 'right.csv'])
      for (const more of [[], ['--force']])
        expect(draw(readings, ...more).faults).toEqual([{ code: 'file.is-input' }]);
    expect(readFileSync(join(folder, 'right.csv'), 'utf8')).toBe(csvOf(rows, 1.5));
  });

  testMistakes(MISTAKES);

  test('names every mistake of the readings by file, line and column', () => {
    const refuse = (csv: string) => fairlath([...BACK, 'leg.csv'], folderWith({ 'leg.csv': csv }));
    const placesOf = (err: string) => err.match(/^leg\.csv:\d+:\d+/gm);
    const cells = refuse('station,offset\n6,1 1\n12,\n99,3\n');
    expect(cells.faults).toEqual([{ code: 'length.ambiguous', key: 'offset' }, { code: 'readings.missing' }]);
    expect(placesOf(cells.err)).toEqual(['leg.csv:2:3', 'leg.csv:3:4']);
    const stations = refuse('station,offset\n6,2 1/2\n99,3\n-4,1\n');
    expect(stations.faults.map(({ code }) => code)).toEqual([
      'check.no-such-station',
      'check.no-such-station',
    ]);
    expect(placesOf(stations.err)).toEqual(['leg.csv:3:1', 'leg.csv:4:1']);
  });

  test('refuses a file that is far too large, or is none, in a moment', () => {
    const folder = folderWith({
      'lines.csv': '6,1/2\n'.repeat(10_000_000),
      'line.csv': Buffer.alloc(100_000_000, '6'),
      'binary.csv': Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * 89) % 256)),
    });
    mkdirSync(join(folder, 'folder.csv'));
    for (const name of ['lines.csv', 'line.csv', 'binary.csv', 'folder.csv'])
      for (const args of [
        [...BACK, name],
        ['take-off', name],
      ]) {
        const { code, err, cpu } = fairlathMeasured(args, folder);
        expect(code).toBe(2);
        expect(err).toMatch(new RegExp(`^(error: )?${name}:.*\\n$`));
        expect(cpu).toBeLessThan(SOON_MS);
      }
    rmSync(folder, { recursive: true });
  });

  test('its words are the reviewed ones', () => {
    const rows = offsetsOf('4');
    return expectWords(
      'check',
      [
        ['check', '--help'],
        [...SHORT_BACK, '--measured', MEASURED],
        [...SHORT_BACK, '--measured', 'left.csv', '--pair', 'mirror.csv'],
        [...SHORT_BACK, '--measured', 'left.csv', '--pair', 'mirror.csv', '--mirrored'],
        [...SHORT_BACK, '--measured', 'proud.csv', '--before-sanding'],
        [...SHORT_BACK, '--measured', 'wrong.csv'],
        [...ARC, '--reading', '150=57', '--reading', '300=75'],
        ...MISTAKES.map(([args]) => args),
      ],
      {
        'left.csv': csvOf(rows),
        'mirror.csv': csvOf(rows, 0.2, -1),
        'proud.csv': csvOf(rows.slice(1, -1), 25.4 / 16),
        'wrong.csv': 'station,offset\n6,1 1\n12,\n99,3\n',
      },
    );
  });
});
