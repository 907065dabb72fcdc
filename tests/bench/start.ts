import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { patternPages } from '../../src/export/patterns.ts';
import { parseJob } from '../../src/job/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import { layOut } from '../../src/tiling/lay-out.ts';
import { bareScript } from './bare-script.ts';
import type { Figure } from './figure.ts';
import { optionsOn, readSample } from './parts.ts';
import { folder, ratio } from './run.ts';
import { asModules, withoutCompiled, withoutOwnScripts, withoutPatience } from './variants.ts';

const bin = resolve('bin/fairlath.js');
const LEG = resolve('samples/hall-bench-leg.yaml');
const SHOW = ['show', LEG];
const PRINT = ['print', LEG, '-o', 'leg.pdf'];

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

/** How a command starts and runs beside the least that Node takes, and what each measure for it spares. */
export async function startFigures(): Promise<Figure[]> {
  const nothing = join(folder, 'nothing.cjs');
  writeFileSync(nothing, '');
  const modules = await asModules();
  return [
    {
      name: 'show of the leg, beside bare Node',
      value: ratio([bin, ...SHOW], [nothing]),
      unit: 'times',
      goal: 1.6,
    },
    ...gains('show', SHOW, modules),
    {
      name: 'print of the leg, beside a bare script',
      value: ratio([bin, ...PRINT], [bareLeg()]),
      unit: 'times',
      goal: 1,
    },
    ...gains('print', PRINT, modules),
  ];
}

/** What is spared of the time that a command takes without the measure. */
function gains(command: string, words: readonly string[], modules: string): Figure[] {
  const gain = (by: string, made: string, plain: string): Figure => ({
    name: `${command}: spared by ${by}`,
    value: 100 * (1 - ratio([made, ...words], [plain, ...words])),
    unit: '% of the time without',
  });
  const anew = withoutCompiled();
  return [
    gain('all measures together', bin, modules),
    gain('one script in place of modules', anew, modules),
    gain('a script of its own', anew, withoutOwnScripts()),
    gain('what Node compiled at the build', bin, anew),
    gain('waiting before code is made faster', bin, withoutPatience(command, words)),
  ];
}
