import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { takeOff } from '../../src/check/fit/take-off.ts';
import { MAX_READINGS } from '../../src/check/readings/read-readings.ts';
import { streamPatternPdf } from '../../src/export/writers/pdf.ts';
import { parseJob } from '../../src/job/parse/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import type { Part } from '../../src/part/part.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import { DEFAULT_MARGIN_MM, DEFAULT_OVERLAP_MM, type LayOutOptions, layOut } from '../../src/tiling/tile.ts';
import { defaultRule } from '../../src/units/rule.ts';
import { noise } from '../check/bench.ts';
import { type Figure, median, once } from './figure.ts';

export const readSample = (name: string): string => readFileSync(`samples/${name}.yaml`, 'utf8');

/** An arch of two edges as a job. */
export const archJob = (length: number, rise: number): string =>
  `part: Garden arch\nunits: mm\nedges:\n` +
  `  lower:\n    - from: [0, 0]\n    - arc: [${length}, 0]\n      rise: ${rise}\n` +
  `  upper:\n    - from: [0, 80]\n    - arc: [${length}, 80]\n      rise: ${rise + 20}\n` +
  `allowance:\n  saw: 2\n`;

/** An arch of about so many sheets of A4. */
export const ARCHES: readonly (readonly [sheets: number, length: number, rise: number])[] = [
  [10, 1860, 150],
  [100, 12_000, 2400],
  [1000, 118_000, 23_600],
];

export const optionsOn = (paper: string): LayOutOptions => ({
  paper: parsePaper(paper),
  margin: DEFAULT_MARGIN_MM,
  overlap: DEFAULT_OVERLAP_MM,
  turn: 'auto',
  maxSheets: 2000,
});

const font = readFileSync(
  createRequire(`${process.cwd()}/package.json`).resolve(
    '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff',
  ),
);

const partOf = (text: string): Part => makePart(parseJob(text).job);

function sampleFigures(name: string, called: string, goals: { make?: number }): Figure[] {
  const text = readSample(name);
  const { job } = parseJob(text);
  const part = makePart(job);
  const options = optionsOn('letter');
  const layout = layOut(part, options);
  return [
    { name: `${called}: read the job`, value: median(() => parseJob(text)), unit: 'ms' },
    {
      name: `${called}: make the part`,
      value: median(() => makePart(job)),
      unit: 'ms',
      ...(goals.make !== undefined && { goal: goals.make }),
    },
    {
      name: `${called}: lay out on letter`,
      value: median(() => layOut(part, options), 30),
      unit: 'ms',
      goal: 50,
    },
    {
      name: `${called}: sheets more than can be told to be needed`,
      value: layout.sheets.length - layout.lowerBound,
      unit: 'sheets',
    },
    {
      name: `${called}: compose and write`,
      value: median(() => streamPatternPdf(part, layout, { font, cover: true }, () => {}), 15),
      unit: 'ms',
    },
  ];
}

export const partFigures = (): Figure[] => {
  const arch = partOf(archJob(3000, 980));
  return [
    ...sampleFigures('hall-bench-leg', 'bench leg', { make: 1.5 }),
    ...sampleFigures('garden-arch-rail', 'arch rail', { make: 4 }),
    {
      name: '3 m arch, 1 m high: lay out on A4',
      value: median(() => layOut(arch, optionsOn('a4')), 5),
      unit: 'ms',
      goal: 1000,
    },
    {
      name: 'take off the most readings, of no curve at all',
      value: once(() => takeOff(noise(MAX_READINGS), defaultRule('mm'))),
      unit: 'ms',
    },
  ];
};
