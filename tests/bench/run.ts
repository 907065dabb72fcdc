import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import { medianOf } from './figure.ts';

export interface Used {
  /** ms of processor time, user and system. */
  readonly cpu: number;
  readonly wall: number;
  /** The most memory held at once, MB. */
  readonly memory: number;
}

/** Inside the project, so that what runs there finds the packages. */
export const folder = resolve('node_modules/.cache/fairlath/bench');
const usage = resolve('tests/bench/usage.cjs');

/** Turns of two programs, one after the other, so that a busy machine slows both. */
const PAIRS = 11;

/** Runs a program of Node's to its end. */
export function run(words: readonly string[]): Used {
  const { status, stderr, output } = spawnSync(process.execPath, ['--require', usage, ...words], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'pipe', 'pipe'],
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${words.join(' ')}: ${stderr}`);
  return JSON.parse(output[3]!) as Used;
}

/** How much more processor time one program takes than another: the median over pairs of runs. */
export function ratio(one: readonly string[], other: readonly string[]): number {
  run(one);
  run(other);
  return medianOf(Array.from({ length: PAIRS }, () => run(one).cpu / run(other).cpu));
}
