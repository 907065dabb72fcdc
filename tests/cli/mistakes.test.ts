import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fairlath, freshFolder, root } from './run.ts';

const leg = join(root, 'samples/hall-bench-leg.yaml');
const quick = ['--curve', 'batten', '--chord', '28', '--rise', '3/4'];

describe('a mistake is answered with exit code 2 and a cure', () => {
  test.each([
    {
      args: ['new', 'nowhere/leg.yaml'],
      says: /nowhere\/leg\.yaml: there is no folder nowhere\. Make it first/,
    },
    { args: ['show', 'nowhere.yaml'], says: /nowhere\.yaml: there is no such file/ },
    { args: ['show', '.'], says: /it is a folder/ },
    { args: ['show'], says: /no job given.*--curve batten/ },
    { args: ['show', leg, '--curve', 'arc'], says: /exclude each other/ },
    {
      args: ['show', '--curve', 'arc', '--chord', '28', '3/4', '--rise', '2'],
      says: /"3\/4" stands for a job file.*in quotes: --chord "28 3\/4"/,
    },
    { args: ['print', leg, '--from', 'chord'], says: /--from belongs to --gauge/ },
    { args: ['show', '--curve', 'batten', '--chord', '28'], says: /--rise/ },
    { args: ['show', '--curve', 'batten', '--chord', '28', '--rise', '1 1'], says: /--rise: .*1 1/ },
    { args: ['show', '--curve', 'batten', '--chord', '28', '--rise', '25'], says: /up to about 23 3\/8 in/ },
    {
      args: ['show', '--curve', 'batten', '--chord', '28', '--rise', '25', '--nail', '10'],
      says: /holds up to 22/,
    },
    { args: ['show', '--curve', 'battn', '--chord', '28', '--rise', '1'], says: /batten/ },
    { args: ['shwo', leg], says: /show/ },
    { args: ['show', leg, '--jason'], says: /--json/ },
    { args: ['show', leg, 'more.yaml'], says: /too many arguments/ },
    { args: ['print', leg, '--paper', 'leter', '-o', 'x.pdf'], says: /letter/ },
    { args: ['print', leg, '--paper', '13x19', '-o', 'x.pdf'], says: /unit|in|mm/ },
    { args: ['print', leg, '--overlap', '190 mm', '-o', 'x.pdf'], says: /overlap/ },
    { args: ['print', leg, '--overlap', '1 mm', '-o', 'x.pdf'], says: /register mark/ },
    { args: ['print', leg, '--margin', '12abc', '-o', 'x.pdf'], says: /--margin/ },
    { args: ['print', leg, '--turn', 'sideways', '-o', 'x.pdf'], says: /auto, or degrees/ },
    { args: ['print', leg, '--max-sheets', 'all', '-o', 'x.pdf'], says: /whole number from 1 to 10000/ },
    { args: ['print', leg, '--max-sheets', '3', '-o', 'x.pdf'], says: /4 sheets of letter.*--max-sheets 4/ },
    { args: ['offsets', leg, '--edge', 'rear'], says: /"front" and "back"/ },
    { args: ['offsets', leg, '--at', '99'], says: /no station 99/ },
    { args: ['offsets', leg, '--every', '0'], says: /--every/ },
    { args: ['offsets', leg, '--every', '1/1000000'], says: /rows/ },
    { args: ['offsets', leg, '--from', 'floor'], says: /reference or chord/ },
    { args: ['offsets', leg, '--at', '6', '--every', '2'], says: /exclude/ },
  ])('fairlath $args', ({ args, says }) => {
    const { code, out, err } = fairlath(args, freshFolder());
    expect(err).toMatch(says);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).not.toMatch(/\n\s+at |node:internal|TypeError/);
  });
});

test('all faults of a file come in one go, each with its line and column, in the job’s own unit', () => {
  const folder = freshFolder();
  writeFileSync(
    join(folder, 'rail.yaml'),
    [
      'part: Garden arch rail',
      'units: in',
      'quantty: 2',
      'stock:',
      '  width: 3/0',
      'edges:',
      '  lower:',
      '    - from: [0, 0]',
      '    - battn: [34, 0]',
      '',
    ].join('\n'),
  );
  const { code, err } = fairlath(['show', 'rail.yaml'], folder);
  expect(code).toBe(2);
  const lines = err.trim().split('\n');
  expect(lines).toHaveLength(3);
  expect(lines[0]).toMatch(/^rail\.yaml:3:1: quantty: .*"quantity"/);
  expect(lines[1]).toMatch(/^rail\.yaml:5:10: stock\.width: /);
  expect(lines[2]).toMatch(/^rail\.yaml:9:7: edges\.lower\[1\]\.?.*batten/);
});

test('what only the geometry can tell is placed too, with lengths in inches', () => {
  const folder = freshFolder();
  writeFileSync(
    join(folder, 'rail.yaml'),
    'part: Rail\nunits: in\nstock:\n  width: 2\nedges:\n  a:\n    - from: [0, 0]\n    - batten: [30, 0]\n      through: [15, 4]\n',
  );
  const { code, err } = fairlath(['show', 'rail.yaml'], folder);
  expect(code).toBe(2);
  expect(err).toMatch(/^rail\.yaml:4:10: stock\.width: the part is 4 in wide.*the stock is 2 in/);
});

test('a mistake in an option is not blamed on the job file', () => {
  for (const [command, option, value] of [
    ['print', '--overlap', 'wide'],
    ['print', '--overlap', '1 mm'],
    ['print', '--max-sheets', '3'],
    ['draw', '--only', 'board'],
  ] as const) {
    const { err } = fairlath([command, leg, option, value, '-o', 'x.pdf'], freshFolder());
    expect(err).toMatch(new RegExp(`^error: ${option}: `));
  }
});

test('a negative offset is taken as a length, not as an option', () => {
  const { code } = fairlath(['show', ...quick.slice(0, 4), '--rise', '-3/4']);
  expect(code).toBe(0);
});
