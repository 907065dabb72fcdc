import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { patternPages } from '../../src/export/sheets/pattern-pages.ts';
import { parseJob } from '../../src/job/parse/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import { layOut } from '../../src/tiling/tile.ts';
import { bareScript } from './bare-script.ts';
import { type Figure, medianOf, medianRange } from './figure.ts';
import { optionsOn, readSample } from './parts.ts';
import { byTurns, folder } from './run.ts';
import { asModules, withoutCompileCache, withoutFlags, withoutOwnScripts } from './variants.ts';

const bin = resolve('bin/fairlath.js');
const LEG = resolve('samples/hall-bench-leg.yaml');
const SHOW = ['show', LEG];
const HAS_COMPILE_CACHE = 'enableCompileCache' in createRequire(import.meta.url)('node:module');
/** Node 20 keeps nothing of what it has compiled, so that a command takes longer there beside bare Node. */
const GOALS =
  Number.parseInt(process.versions.node, 10) < 22 ? { show: 2, print: 0.85 } : { show: 1.6, print: 0.75 };
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
    ...commandFigures('show', SHOW, modules, { called: 'bare Node', words: [nothing], goal: GOALS.show }),
    ...commandFigures('print', PRINT, modules, {
      called: 'a bare script',
      words: [bareLeg()],
      goal: GOALS.print,
    }),
  ];
}

interface Bare {
  readonly called: string;
  readonly words: readonly string[];
  readonly goal: number;
}

function commandFigures(
  command: string,
  words: readonly string[],
  modules: string,
  { called, words: bare, goal }: Bare,
): Figure[] {
  const turns = byTurns({
    bare,
    made: [bin, ...words],
    modules: [modules, ...words],
    anew: [withoutCompileCache(), ...words],
    all: [withoutOwnScripts(), ...words],
    hasty: [withoutFlags(), ...words],
  });
  type Way = keyof (typeof turns)[number];
  const median = (of: (turn: Record<Way, number>) => number) => {
    const values = turns.map(of);
    return { value: medianOf(values), range: medianRange(values) };
  };
  /** What is spared of the time that a command takes without the measure. */
  const gain = (by: string, made: Way, plain: Way): Figure => ({
    name: `${command}: spared by ${by}`,
    ...median((turn) => 100 * (1 - turn[made] / turn[plain])),
    unit: '% of the time without',
  });
  return [
    {
      name: `${command} of the leg, beside ${called}`,
      ...median(({ made, bare }) => made / bare),
      unit: 'times',
      goal,
    },
    gain('all measures together', 'made', 'modules'),
    gain('a script of its own', 'made', 'all'),
    ...(HAS_COMPILE_CACHE ? [gain("Node's compile cache", 'made', 'anew')] : []),
    gain('the flags of the runtime', 'made', 'hasty'),
  ];
}
