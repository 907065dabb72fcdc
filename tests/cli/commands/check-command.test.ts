import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { selectEdge } from '../../../src/cli/options/edge-options.ts';
import { samplePart } from '../../part/jobs.ts';
import { SOON_MS } from '../../took.ts';
import { csvOf, folderWith, leg, measured, offsetsOf } from '../measured-leg.ts';
import { fairlath, fairlathMeasured, freshFolder } from '../run.ts';

const KEYS = ['edge', 'tolerance', 'readings', 'worst', 'rms', 'bestFit', 'verdict'];

describe('fairlath check', () => {
  test('finds the hump of the sample, and tells how far and where', () => {
    const { code, out, err } = fairlath(['check', leg, '--edge', 'back', '--measured', measured]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/28 .*3\/32 proud.*high/);
    expect(out).toMatch(/worst +3\/32 proud at station 28/);
    expect(out).toMatch(/\noutside: 3 of 18 stations/);
    expect(out).toMatch(/apex +station 15.*asked for station 15 5\/8/);
  });

  test('its JSON has the keys programs rely on, and deviation is measured less design', () => {
    const { code, out } = fairlath(['check', leg, '--edge', 'back', '--measured', measured, '--json']);
    expect(code).toBe(0);
    const told = JSON.parse(out);
    expect(Object.keys(told)).toEqual(['command', 'part', 'units', ...KEYS, 'warnings']);
    expect(Object.keys(told.bestFit)).toEqual(['shift', 'rotateDeg', 'worst', 'rms']);
    expect(told).toMatchObject({ command: 'check', units: 'mm', edge: 'back', verdict: 'outside' });
    expect(told.readings).toHaveLength(18);
    for (const reading of told.readings) {
      expect(Object.keys(reading)).toEqual(['station', 'measured', 'design', 'deviation']);
      expect(reading.deviation).toBeCloseTo(reading.measured - reading.design, 12);
    }
    const off = told.readings.map(({ deviation }: { deviation: number }) => Math.abs(deviation));
    expect(told.worst).toBe(Math.max(...off));
  });

  test('the table of offsets it prints is within, when it is measured just so', () => {
    const csv = fairlath(['offsets', leg, '--edge', 'back', '--csv']).out;
    const folder = folderWith({ 'leg.csv': csv });
    const { out } = fairlath(['check', leg, '--edge', 'back', '--measured', 'leg.csv', '--json'], folder);
    const { worst, verdict } = JSON.parse(out);
    expect(worst).toBeLessThan(1e-5);
    expect(verdict).toBe('within');
  });

  test('readings can be given one by one, and from the chord', () => {
    const line = ['--curve', 'arc', '--chord', '600', '--rise', '75', '--units', 'mm'];
    const { out, code } = fairlath([
      'check',
      ...line,
      '--from',
      'chord',
      '--reading',
      '300=76',
      '--reading',
      '0=0',
      '--json',
    ]);
    expect(code).toBe(0);
    const { readings, tolerance } = JSON.parse(out);
    expect(readings[0].deviation).toBeCloseTo(1, 9);
    expect(tolerance).toBe(0.5);
  });

  test('a part laid crooked is told from one sawn wrong', () => {
    const [sin, cos] = [Math.sin(0.005), Math.cos(0.005)];
    const rows = offsetsOf('2').map(({ station: x, offset: y }) => ({
      station: x * cos - y * sin,
      offset: x * sin + y * cos,
    }));
    const folder = folderWith({ 'leg.csv': csvOf(rows) });
    const args = ['check', leg, '--edge', 'back', '--measured', 'leg.csv'];
    expect(fairlath(args, folder).out).toMatch(/lay crooked/);
    const { bestFit, verdict, warnings } = JSON.parse(fairlath([...args, '--json'], folder).out);
    expect(verdict).toBe('outside');
    expect(bestFit.rotateDeg).toBeCloseTo((0.005 * 180) / Math.PI, 6);
    expect(warnings[0].code).toBe('check.set-crooked');
  });

  test('one place sawn wrong is no part laid crooked, though turning it would bring all within', () => {
    const rows = offsetsOf('6').map(({ station, offset }) => ({
      station,
      offset: offset + (station > 700 && station < 800 ? 1.4 : 0),
    }));
    const folder = folderWith({ 'leg.csv': csvOf(rows) });
    const args = ['check', leg, '--edge', 'back', '--measured', 'leg.csv', '--json'];
    const { verdict, bestFit, tolerance, warnings } = JSON.parse(fairlath(args, folder).out);
    expect(verdict).toBe('outside');
    expect(bestFit.worst).toBeLessThan(1.5 * tolerance);
    expect(warnings).toEqual([]);
  });

  test('a picture of a pair holds both parts, and is drawn over none of their readings', () => {
    const rows = offsetsOf('2');
    const folder = folderWith({ 'left.csv': csvOf(rows, 0.5), 'right.csv': csvOf(rows, 1.5) });
    const args = [
      'check',
      leg,
      '--edge',
      'back',
      '--measured',
      'left.csv',
      '--pair',
      'right.csv',
      '--picture',
    ];
    expect(fairlath([...args, 'pair.svg'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'pair.svg'), 'utf8')).toContain('short dashes: the second of the pair');
    const { code, err } = fairlath([...args, 'right.csv', '--force'], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/right\.csv: this is the file that is read/);
    expect(readFileSync(join(folder, 'right.csv'), 'utf8')).toBe(csvOf(rows, 1.5));
  });

  test('the second of a pair is held against the first, mirrored or not', () => {
    const rows = offsetsOf('2');
    const folder = folderWith({
      'left.csv': csvOf(rows, 0.5),
      'right.csv': csvOf(rows, 1.5),
      'mirror.csv': csvOf(rows, 1.5, -1),
    });
    const args = ['check', leg, '--edge', 'back', '--measured', 'left.csv', '--json', '--pair'];
    for (const more of [['right.csv'], ['mirror.csv', '--mirrored']]) {
      const { pair } = JSON.parse(fairlath([...args, ...more], folder).out);
      expect(pair.worst).toBeCloseTo(1, 5);
    }
    expect(
      fairlath(['check', leg, '--edge', 'back', '--measured', 'left.csv', '--mirrored'], folder),
    ).toMatchObject({ code: 2, err: expect.stringMatching(/--pair/) });
  });

  test('a second measured mirrored, or from the other end, is doubted before it is called unlike the first', () => {
    const rows = offsetsOf('2');
    const turned = rows.map((row) => ({ ...row, station: Number((34 * 25.4 - row.station).toFixed(6)) }));
    const folder = folderWith({
      'left.csv': csvOf(rows, 0),
      'mirror.csv': csvOf(rows, 0.2, -1),
      'turned.csv': csvOf(turned, 0.2),
    });
    const args = ['check', leg, '--edge', 'back', '--measured', 'left.csv', '--pair'];
    expect(fairlath([...args, 'mirror.csv'], folder).out).toMatch(
      /\n\nOf the second: With their offsets on the other side .* Or add --mirrored\.\n$/,
    );
    const codes = (file: string) =>
      JSON.parse(fairlath([...args, file, '--json'], folder).out).warnings.map(
        ({ code }: { code: string }) => code,
      );
    expect(codes('mirror.csv')).toEqual(['check.second-other-side']);
    expect(codes('turned.csv')).toEqual(['check.second-other-end']);
    expect(codes('left.csv')).toEqual([]);
  });

  test('before sanding it says what is left to take off', () => {
    const rows = offsetsOf('2').slice(2, -2);
    const folder = folderWith({ 'leg.csv': csvOf(rows, 25.4 / 16) });
    const { out, code } = fairlath(
      ['check', leg, '--edge', 'back', '--measured', 'leg.csv', '--before-sanding'],
      folder,
    );
    expect(code).toBe(0);
    expect(out).toMatch(/saw line/);
    expect(out).toMatch(/20 .* on the line .* 1\/16/);
    expect(out).toMatch(/within/);
  });

  test('its picture is one of ours and replaces only its own kind', () => {
    const folder = folderWith({ 'other.svg': '<svg>not ours</svg>', 'leg.csv': readFileSync(measured) });
    const args = ['check', leg, '--edge', 'back', '--measured', 'leg.csv', '--picture'];
    expect(fairlath([...args, 'leg.svg'], folder).code).toBe(0);
    expect(fairlath([...args, 'leg.svg'], folder).code).toBe(0);
    const svg = readFileSync(join(folder, 'leg.svg'), 'utf8');
    expect(svg).toContain('Hall bench leg, back');
    expect(svg).toMatch(/3\/32 proud/);
    expect(svg).not.toMatch(/NaN|Infinity|\de-/);
    expect(fairlath([...args, 'other.svg'], folder).code).toBe(2);
    expect(fairlath([...args, 'leg.csv'], folder).code).toBe(2);
  });
});

describe('a mistake is answered with exit code 2 and a cure', () => {
  test.each([
    { args: ['--measured', measured], says: /"front" and "back"/ },
    { args: ['--edge', 'rear', '--measured', measured], says: /no edge "rear"/ },
    { args: ['--edge', 'back'], says: /no readings.*--reading 6=1\/2/ },
    { args: ['--edge', 'back', '--reading', '6'], says: /--reading: .*station=offset/ },
    { args: ['--edge', 'back', '--reading', '6=1 1'], says: /--reading: / },
    { args: ['--edge', 'back', '--reading', '99=1'], says: /no station 99/ },
    { args: ['--edge', 'back', '--reading', '6=1', '--measured', measured], says: /exclude/ },
    { args: ['--edge', 'back', '--reading', '6=1', '--from', 'floor'], says: /reference or chord/ },
    { args: ['--edge', 'back', '--reading', '6=1', '--tolerance', '0'], says: /--tolerance/ },
    { args: ['--edge', 'back', '--measured', 'nowhere.csv'], says: /nowhere\.csv: there is no such file/ },
  ])('check $args', ({ args, says }) => {
    const { code, out, err } = fairlath(['check', leg, ...args], freshFolder());
    expect(err).toMatch(says);
    expect({ code, out }).toEqual({ code: 2, out: '' });
  });

  test('the cure for a missing saw line is right in a job of either unit', () => {
    const curve = ['--curve', 'arc', '--chord', '600', '--rise', '75', '--units', 'mm'];
    const { code, err } = fairlath(['check', ...curve, '--reading', '300=75', '--before-sanding']);
    expect({ code, err }).toEqual({ code: 2, err: expect.stringContaining('Write "saw: 1/16 in" under') });
  });

  test('mistakes of the readings are told all at once, by file, line and column', () => {
    const folder = folderWith({ 'leg.csv': 'station,offset\n6,1 1\n12,\n99,3\n' });
    const args = ['check', leg, '--edge', 'back', '--measured', 'leg.csv'];
    expect(fairlath(args, folder).err.trim().split('\n')).toEqual([
      expect.stringMatching(/^leg\.csv:2:3: offset: "1 1"/),
      expect.stringMatching(/^leg\.csv:3:4: no offset/),
    ]);
    writeFileSync(join(folder, 'leg.csv'), 'station,offset\n6,2 1/2\n99,3\n-4,1\n');
    expect(fairlath(args, folder).err.trim().split('\n')).toEqual([
      expect.stringMatching(/^leg\.csv:3:1: .*no station 99 in/),
      expect.stringMatching(/^leg\.csv:4:1: .*no station -4 in/),
    ]);
  });

  test('a file far too large, or none at all, is refused in a moment', () => {
    const folder = folderWith({
      'lines.csv': '6,1/2\n'.repeat(10_000_000),
      'line.csv': Buffer.alloc(100_000_000, '6'),
      'binary.csv': Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * 89) % 256)),
    });
    mkdirSync(join(folder, 'folder.csv'));
    for (const name of ['lines.csv', 'line.csv', 'binary.csv', 'folder.csv']) {
      for (const args of [
        ['check', leg, '--edge', 'back', '--measured', name],
        ['take-off', name],
      ]) {
        const { code, err, cpu } = fairlathMeasured(args, folder);
        expect(code).toBe(2);
        expect(err).toMatch(new RegExp(`^(error: )?${name}:.*\\n$`));
        expect(cpu).toBeLessThan(SOON_MS);
      }
    }
    rmSync(folder, { recursive: true });
  });
});

test('the edge must be named when there are two', () => {
  const part = samplePart('hall-bench-leg.yaml');
  expect(() => selectEdge(part, {})).toThrow(/"front" and "back"/);
  expect(() => selectEdge(part, { edge: 'rear' })).toThrow(/"rear"/);
});
