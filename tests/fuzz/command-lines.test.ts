import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { freshFolder, root } from '../cli/run.ts';
import { Random, ROUNDS } from './random.ts';

const A_ROUND = 6;
/** The longest a command may take on a busy machine, ms; half a second is usual. */
const SOON_MS = 20_000;
const MEMORY_MB = 512;

const JOBS = ['hall-bench-leg', 'garden-arch-rail', 'hall-bench-stretcher'].map((name) =>
  join(root, `samples/${name}.yaml`),
);
const COMMANDS: readonly (readonly string[])[] = [
  ['show', 'JOB'],
  ['show', '--curve', 'batten', '--chord', 'N', '--rise', 'N', '--nail', 'N'],
  ['show', '--curve', 'arc', '--chord', 'N', '--rise', 'N', '--units', 'mm'],
  ['print', 'JOB', '-o', 'out.pdf', '--paper', 'N', '--margin', 'N', '--overlap', 'N'],
  ['print', 'JOB', '-o', 'out.pdf', '--turn', 'N', '--max-sheets', 'N'],
  ['offsets', 'JOB', '--every', 'N'],
  ['offsets', 'JOB', '--at', 'N', '--from', 'N'],
  ['batten', 'JOB', '--thickness', 'N', '--width', 'N', '--species', 'N'],
  ['check', 'JOB', '--edge', 'back', '--reading', '6=N', '--tolerance', 'N'],
  ['printer', 'list', 'N'],
];
const VALUES = [
  '',
  '0',
  '-1',
  '28',
  '3/4',
  '12mm',
  '1e9',
  '1e308',
  'NaN',
  '10',
  'letter',
  'a4',
  '1x1',
  '-',
  '--',
  '-o',
  '--json',
  '__proto__',
  '"',
  '🪵',
  'ash',
  'chord',
];

test('a command line of any words is done, or refused with exit code 2 and its cure', () => {
  for (let i = 0; i < A_ROUND * ROUNDS; i++) {
    const random = new Random(i);
    const words = random.pick(COMMANDS).flatMap((word) => {
      if (random.next() < 0.05) return [];
      if (word === 'JOB') return [random.next() < 0.9 ? random.pick(JOBS) : random.pick(VALUES)];
      return [word.includes('N') ? word.replace('N', random.pick(VALUES)) : word];
    });
    const folder = freshFolder();
    const { status, signal, stdout, stderr } = spawnSync(
      process.execPath,
      [`--max-old-space-size=${MEMORY_MB}`, join(root, 'bin/fairlath.js'), ...words],
      { cwd: folder, env: { ...process.env, XDG_CONFIG_HOME: folder }, encoding: 'utf8', timeout: SOON_MS },
    );
    const told = `${JSON.stringify(words)}\n${stderr}`;
    expect(signal, told).toBeNull();
    expect([0, 2], told).toContain(status);
    expect(stderr, told).not.toMatch(/\n {4}at |node:internal/);
    expect(stdout, told).not.toMatch(/\bNaN\b|\bundefined\b|Infinity/);
    if (status === 2) expect(stderr, told).toMatch(/\S/);
  }
}, 600_000);
