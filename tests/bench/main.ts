import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { batten } from '../../src/curves/batten.ts';
import { fairnessOf } from '../../src/curves/fairness.ts';
import { figuresOf } from '../../src/curves/figures.ts';
import { freeBatten, freeRiseLimit } from '../../src/curves/free-batten.ts';
import { strip } from '../../src/curves/strip.ts';
import { streamPatternPdf, writePatternPdf } from '../../src/export/pdf.ts';
import { parseJob } from '../../src/job/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import { DEFAULT_MARGIN_MM, DEFAULT_OVERLAP_MM, layOut } from '../../src/tiling/lay-out.ts';
import { parsePaper } from '../../src/tiling/paper.ts';
import type { ReferenceCases } from '../curves/reference.ts';
import type { Figure } from './figure.ts';
import { pageFigures } from './page.ts';

/** Runs before the clock starts, so that the machine code is warm. */
const WARM_UP = 20;
const RUNS = 200;

/** The median time of one call, ms. Runs differ by their number, the same in every process. */
function median(work: (i: number) => unknown, runs = RUNS): number {
  for (let i = 0; i < WARM_UP; i++) work(i);
  const times = Array.from({ length: runs }, (_, i) => {
    const started = performance.now();
    work(i);
    return performance.now() - started;
  });
  return times.sort((a, b) => a - b)[runs >> 1]!;
}

const A = { x: 0, y: 0 };
const B = { x: 860, y: 0 };
/** Nails over the whole range a strip stands in, shallow to the limit. */
const nail = (i: number): { x: number; y: number } => {
  const share = 0.1 + 0.8 * ((i * 0.618) % 1);
  return { x: 860 * share, y: 860 * freeRiseLimit(share) * 0.99 * ((i * 0.382) % 1) + 0.1 };
};

/** The worst distance of the strip's tangents at its pins from the reference, radians. */
const battenError = (): number =>
  Math.max(
    ...reference.free3pin.map((one) => {
      const [a, n, b] = one.inputs.pins.map(([x, y]) => ({ x, y })) as [typeof A, typeof A, typeof A];
      return Math.abs(freeBatten(a, n, b)[0].angle - one.outputs.theta_at_pins[0]!);
    }),
  );

/** Bundled elsewhere and run in the project folder: files are named from there. */
const reference = JSON.parse(readFileSync('tests/fixtures/batten-cases.json', 'utf8')) as ReferenceCases;
const leg = readFileSync('samples/hall-bench-leg.yaml', 'utf8');
const part = makePart(parseJob(leg).job);
const options = {
  paper: parsePaper('letter'),
  margin: DEFAULT_MARGIN_MM,
  overlap: DEFAULT_OVERLAP_MM,
  turn: 'auto',
} as const;
const font = readFileSync(
  createRequire(`${process.cwd()}/package.json`).resolve(
    '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff',
  ),
);

async function pdfTime(): Promise<number> {
  const layout = layOut(part, options);
  const times: number[] = [];
  for (let i = 0; i < 15; i++) {
    const started = performance.now();
    await writePatternPdf(part, layout, { font, cover: true });
    times.push(performance.now() - started);
  }
  return times.sort((a, b) => a - b)[7]!;
}

/** An arch of two edges, so long that it takes about so many sheets of A4. */
const arch = (length: number, rise: number) =>
  makePart(
    parseJob(
      `part: Garden arch\nunits: mm\nedges:\n` +
        `  lower:\n    - from: [0, 0]\n    - arc: [${length}, 0]\n      rise: ${rise}\n` +
        `  upper:\n    - from: [0, 80]\n    - arc: [${length}, 80]\n      rise: ${rise + 20}\n` +
        `allowance:\n  saw: 2\n`,
    ).job,
  );

const onA4 = { ...options, paper: parsePaper('a4'), maxSheets: 2000 } as const;
const smallArch = arch(3000, 980);

/** Composing and writing, ms for one sheet; the fixed cost of a file is spread over them. */
function sheetTime(length: number, rise: number): { sheets: number; value: number } {
  const long = arch(length, rise);
  const layout = layOut(long, onA4);
  const started = performance.now();
  streamPatternPdf(long, layout, { font, cover: true }, () => {});
  return { sheets: layout.sheets.length, value: (performance.now() - started) / layout.sheets.length };
}

const patternFigures = (): Figure[] =>
  [sheetTime(1860, 150), sheetTime(12_000, 2400), sheetTime(118_000, 23_600)].map(({ sheets, value }) => ({
    name: `pattern of ${sheets} sheets: compose and write one`,
    value,
    unit: 'ms',
  }));

const apexes = Array.from({ length: RUNS }, (_, i) => figuresOf(batten(A, B, { nail: nail(i) })).apex!.at);

/** Pins on a gentle bend, each a little off it, and steeper as i grows. */
const manyPins = (count: number, i: number, height: number): { x: number; y: number }[] =>
  Array.from({ length: count }, (_, k) => {
    const u = k / (count - 1);
    return {
      x: 860 * u,
      y: 860 * height * (4 * u * (1 - u) + 0.15 * Math.sin(9 * k + i)) * (k % (count - 1) ? 1 : 0),
    };
  });
const FREE = { start: 'free', end: 'free' } as const;
const HELD = { start: { held: 0 }, end: { held: 0 } } as const;

/** The worst distance of tangents at the pins from the reference over all strips, radians. */
const stripError = (): number =>
  Math.max(
    ...[...reference.heldEnds, ...reference.manyPins].flatMap(({ inputs, outputs }) => {
      const kept = (angle: number | null) => (angle === null ? 'free' : { held: angle });
      const ends = { start: kept(inputs.hold_A), end: kept(inputs.hold_B) } as const;
      const { pins } = strip(
        inputs.pins.map(([x, y]) => ({ x, y })),
        ends,
      );
      return pins.map(({ angle }, i) => Math.abs(angle - outputs.theta_at_pins[i]!));
    }),
  );

const figures: Figure[] = [
  {
    name: 'strip over 5 pins',
    value: median((i) => strip(manyPins(5, i, 0.08), FREE)),
    unit: 'ms',
    goal: 0.5,
  },
  {
    name: 'strip over 7 pins, ends held',
    value: median((i) => strip(manyPins(7, i, 0.08), HELD)),
    unit: 'ms',
    goal: 0.5,
  },
  {
    name: 'strip over 7 pins, deep',
    value: median((i) => strip(manyPins(7, i, 0.3), FREE)),
    unit: 'ms',
    goal: 1,
  },
  { name: 'strips: worst tangent error', value: stripError(), unit: 'rad', goal: 1e-9 },
  {
    name: 'fairness of a batten',
    value: median((i) => fairnessOf([batten(A, B, { nail: nail(i) })])),
    unit: 'ms',
  },
  {
    name: 'free batten over a nail: solve',
    value: median((i) => freeBatten(A, nail(i), B)),
    unit: 'ms',
    goal: 0.5,
  },
  { name: 'free batten: worst tangent error', value: battenError(), unit: 'rad', goal: 1e-9 },
  {
    name: 'free batten over a nail: solve and fit',
    value: median((i) => batten(A, B, { nail: nail(i) })),
    unit: 'ms',
    goal: 1,
  },
  {
    name: 'free batten by its apex',
    value: median((i) => batten(A, B, { apex: apexes[i]! })),
    unit: 'ms',
    goal: 8,
  },
  {
    name: 'figures of a batten',
    value: median((i) => figuresOf(batten(A, B, { nail: nail(i) }))),
    unit: 'ms',
  },
  { name: 'bench leg: read the job', value: median(() => parseJob(leg)), unit: 'ms' },
  { name: 'bench leg: make the part', value: median(() => makePart(parseJob(leg).job)), unit: 'ms' },
  { name: 'bench leg: lay out on letter', value: median(() => layOut(part, options)), unit: 'ms', goal: 50 },
  {
    name: '3 m arch, 1 m high: lay out on A4',
    value: median(() => layOut(smallArch, onA4), 15),
    unit: 'ms',
    goal: 1000,
  },
  ...patternFigures(),
  { name: 'bench leg: write the PDF', value: await pdfTime(), unit: 'ms' },
  ...(await pageFigures()),
];

const judged = figures.map((figure) => ({
  ...figure,
  holds: figure.goal === undefined ? null : figure.value <= figure.goal,
}));

if (process.argv.includes('--json')) console.log(JSON.stringify({ figures: judged }, null, 2));
else
  for (const { name, value, unit, goal, holds } of judged)
    console.log(
      `${name.padEnd(42)} ${value.toPrecision(3).padStart(10)} ${unit}${goal === undefined ? '' : `   goal ${goal}: ${holds ? 'holds' : 'MISSED'}`}`,
    );
