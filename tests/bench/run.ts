import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';

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

/** Odd, so that one of them is the median; with so many, what spares a twentieth is told from noise. */
const TURNS = 21;

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

/** Processor time of programs, ms, turn by turn: one after the other, so that a busy machine slows them all. */
export function byTurns<Name extends string>(
  programs: Readonly<Record<Name, readonly string[]>>,
): Record<Name, number>[] {
  const names = Object.keys(programs) as Name[];
  const turn = () =>
    Object.fromEntries(names.map((name) => [name, run(programs[name]).cpu])) as Record<Name, number>;
  // Files are read and disks awake after the first.
  turn();
  return Array.from({ length: TURNS }, turn);
}
