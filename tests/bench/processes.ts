import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseJob } from '../../src/job/parse/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import { layOut } from '../../src/tiling/tile.ts';
import { type Figure, medianOf } from './figure.ts';
import { ARCHES, archJob, optionsOn } from './parts.ts';
import { folder, run } from './run.ts';
import { startFigures } from './start.ts';

const bin = resolve('bin/fairlath.js');

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
export async function processFigures(): Promise<Figure[]> {
  mkdirSync(folder, { recursive: true });
  try {
    return [...(await startFigures()), ...sampleFigures(), ...sheetFigures()];
  } finally {
    rmSync(folder, { recursive: true });
  }
}
