import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { patternPages } from '../../src/export/patterns.ts';
import { parseJob } from '../../src/job/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import { layOut } from '../../src/tiling/lay-out.ts';
import { bareScript } from './bare-script.ts';
import { type Figure, medianOf } from './figure.ts';
import { ARCHES, archJob, optionsOn, readSample } from './parts.ts';

interface Used {
  /** ms of processor time, user and system. */
  readonly cpu: number;
  readonly wall: number;
  /** The most memory held at once, MB. */
  readonly memory: number;
}

/** Inside the project, so that the bare script finds the library. */
const folder = resolve('node_modules/.cache/fairlath/bench');
const usage = resolve('tests/bench/usage.cjs');
const bin = resolve('bin/fairlath.js');
const LEG = resolve('samples/hall-bench-leg.yaml');

/** Turns of two programs, one after the other, so that a busy machine slows both. */
const PAIRS = 11;

function run(words: readonly string[]): Used {
  const { status, stderr, output } = spawnSync(process.execPath, ['--require', usage, ...words], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'pipe', 'pipe'],
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${words.join(' ')}: ${stderr}`);
  return JSON.parse(output[3]!) as Used;
}

/** How much more processor time one program takes than another: the median over pairs of runs. */
function ratio(one: readonly string[], other: readonly string[]): number {
  run(one);
  run(other);
  return medianOf(Array.from({ length: PAIRS }, () => run(one).cpu / run(other).cpu));
}

/** A program that draws the leg's pages by hand, in a file. */
function bareLeg(): string {
  const part = makePart(parseJob(readSample('hall-bench-leg')).job);
  const pages = [...patternPages(part, layOut(part, optionsOn('letter')), true).pages];
  const font = createRequire(`${process.cwd()}/package.json`).resolve(
    '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff',
  );
  const file = join(folder, 'bare-leg.mjs');
  writeFileSync(file, bareScript(pages, font, join(folder, 'bare-leg.pdf')));
  return file;
}

function startFigures(): Figure[] {
  const nothing = join(folder, 'nothing.cjs');
  writeFileSync(nothing, '');
  return [
    {
      name: 'show of the leg, beside bare Node',
      value: ratio([bin, 'show', LEG], [nothing]),
      unit: 'times',
      goal: 1.6,
    },
    {
      name: 'print of the leg, beside a bare script',
      value: ratio([bin, 'print', LEG, '-o', 'leg.pdf'], [bareLeg()]),
      unit: 'times',
      goal: 1,
    },
  ];
}

const sampleFigures = (): Figure[] =>
  readdirSync('samples')
    .filter((name) => name.endsWith('.yaml'))
    .flatMap((name) => {
      const { cpu, memory } = run([bin, 'print', resolve('samples', name), '-o', `${name}.pdf`]);
      return [
        { name: `print ${name}`, value: cpu, unit: 'ms of processor' },
        { name: `print ${name}: memory`, value: memory, unit: 'MB' },
      ];
    });

/** Time and memory for ever more sheets; the time of one must not grow with their number. */
function sheetFigures(): Figure[] {
  const found = ARCHES.map(([about, length, rise]) => {
    const job = join(folder, `arch-${about}.yaml`);
    writeFileSync(job, archJob(length, rise));
    const print = [bin, 'print', job, '--paper', 'a4', '--max-sheets', '2000', '-o', `arch-${about}.pdf`];
    const runs = Array.from({ length: 3 }, () => run(print));
    const sheets = layOut(makePart(parseJob(archJob(length, rise)).job), optionsOn('a4')).sheets.length;
    return {
      sheets,
      cpu: medianOf(runs.map(({ cpu }) => cpu)),
      memory: medianOf(runs.map(({ memory }) => memory)),
    };
  });
  const [, hundred, thousand] = found as [(typeof found)[0], (typeof found)[0], (typeof found)[0]];
  return [
    ...found.flatMap(({ sheets, cpu, memory }): Figure[] => [
      { name: `print ${sheets} sheets`, value: cpu, unit: 'ms of processor' },
      { name: `print ${sheets} sheets: memory`, value: memory, unit: 'MB', goal: 512 },
    ]),
    {
      name: 'a sheet of a thousand beside a sheet of a hundred',
      value: thousand.cpu / thousand.sheets / (hundred.cpu / hundred.sheets),
      unit: 'times',
      goal: 1.1,
    },
  ];
}

/** Whole programs, as they are started. */
export function processFigures(): Figure[] {
  mkdirSync(folder, { recursive: true });
  try {
    return [...startFigures(), ...sampleFigures(), ...sheetFigures()];
  } finally {
    rmSync(folder, { recursive: true });
  }
}
