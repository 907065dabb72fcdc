import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { fairlath, fairlathMeasured, freshFolder, root } from '../cli/run.ts';
import { SOON_MS } from '../took.ts';
import { anyCommand } from './any-command.ts';
import { Random, ROUNDS } from './random.ts';

const A_ROUND = 6;
/** In a process that stays, which takes a tenth of the time. */
const ANY_A_ROUND = 50;
const MEMORY_MB = 512;
const NO_NUMBER = /\bNaN\b|\bundefined\b|Infinity|\[object/;

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
    const { code, out, err, cpu, memory } = fairlathMeasured(words, folder);
    const told = `${JSON.stringify(words)}\n${err}`;
    expect([0, 2], told).toContain(code);
    expect(cpu, told).toBeLessThan(SOON_MS);
    expect(memory, told).toBeLessThan(MEMORY_MB);
    expect(err, told).not.toMatch(/\n {4}at |node:internal/);
    expect(out, told).not.toMatch(NO_NUMBER);
    if (code === 2) expect(err, told).toMatch(/\S/);
  }
}, 600_000);

test('any command with any of its options is done, or refused with exit code 2 and its cure', () => {
  let good = 0;
  for (let i = 0; i < ANY_A_ROUND * ROUNDS; i++) {
    const random = new Random(i);
    const folder = freshFolder();
    const words = anyCommand(random, folder);
    const { code, out, err } = fairlath(words, folder, folder);
    const told = `line ${i} of this seed: ${JSON.stringify(words)}\n${err}`;
    expect([0, 2], told).toContain(code);
    expect(err, told).not.toMatch(/\n {4}at |node:internal/);
    expect(out, told).not.toMatch(NO_NUMBER);
    if (code === 2) expect(err, told).toMatch(/\S/);
    else good++;
    for (const name of readdirSync(folder).filter((each) => /\.(?:svg|dxf)$/.test(each)))
      expect(readFileSync(join(folder, name), 'latin1'), told).not.toMatch(NO_NUMBER);
    expect(
      readdirSync(folder).filter((each) => /\.(?:part|busy)$/.test(each)),
      told,
    ).toEqual([]);
  }
  expect(good).toBeGreaterThan((ANY_A_ROUND * ROUNDS) / 5);
}, 1_200_000);

test.each([
  ['show', 'rail.yaml'],
  ['print', 'rail.yaml', '-o', 'rail.pdf'],
  ['draw', 'rail.yaml', '-o', 'rail.dxf'],
  ['card', 'rail.yaml', '-o', 'card.pdf'],
  ['batten', 'rail.yaml', '--species', 'ash'],
])('%s of a strip over two hundred nails is answered within bounds', (...words) => {
  const folder = freshFolder();
  const pins = Array.from({ length: 200 }, (_, i) => `[${10 * (i + 1)}, ${(i * 37) % 8}]`).join(', ');
  const steps = `    - from: [0, 0]\n    - batten: [2010, 0]\n      through: [${pins}]\n`;
  writeFileSync(join(folder, 'rail.yaml'), `part: Rail\nunits: mm\nedges:\n  top:\n${steps}`);
  const { code, err, cpu, memory } = fairlathMeasured(words, folder);
  expect([code, err]).toEqual([0, expect.stringMatching(/lifts off its nails/)]);
  expect(cpu).toBeLessThan(MANY_NAILS * SOON_MS);
  expect(memory).toBeLessThan(MEMORY_MB);
});

/** So many labelled nails on a dozen sheets, or nine hundred arcs, are work, not a hang: progress is told meanwhile. */
const MANY_NAILS = 2;
