import { expect, test } from 'vitest';
import {
  arc,
  batten,
  bow,
  checkEdge,
  ellipse,
  Fault,
  fullSize,
  layOut,
  line,
  parallelPath,
  parsePaper,
  planStock,
  REFERENCE_LINE,
  spline,
  strip,
  takeOff,
  taperedBatten,
} from '../../src/index.ts';
import { samplePart } from '../part/jobs.ts';
import { faultsOf } from './answers.ts';

const part = samplePart('hall-bench-leg.yaml');
const edge = part.edges[1]!;
const [A, B, P] = [
  { x: 0, y: 0 },
  { x: 100, y: 0 },
  { x: 40, y: 5 },
];
const FREE = { start: 'free', end: 'free' } as const;
const sheets = { paper: parsePaper('a4'), margin: 12.7, overlap: 15, turn: 0 } as const;
const check = { base: REFERENCE_LINE, tolerance: 1, beforeSanding: false };
const five = [0, 60, 120, 180, 240, 300].map((station) => ({ station, offset: 50 + station / 20 }));

/** A number that is none, where a program reckons it from others. */
const asking: Readonly<Record<string, (odd: number) => unknown>> = {
  line: (odd) => line(A, { x: odd, y: 0 }),
  arc: (rise) => arc(A, B, { rise }),
  bow: (rise) => bow(A, B, rise),
  ellipse: (rise) => ellipse(A, B, rise),
  'a batten’s nail': (y) => batten(A, B, { nail: { x: 40, y } }),
  'a batten’s apex': (x) => batten(A, B, { apex: { x, y: 5 } }),
  'a tapered strip': (from) => taperedBatten(A, B, { nail: P }, { from, to: 3 }),
  'a strip’s pins': (x) => strip([A, { x, y: 5 }, B], FREE),
  'a spline’s points': (y) => spline([A, { x: 40, y }, B], 'natural', 'natural'),
  'a parallel': (away) => parallelPath(edge.runs[0]!.exact, away, false),
  'a drawn parallel': (parallel) => fullSize(part, { parallel }),
  'a margin': (margin) => layOut(part, { ...sheets, margin }),
  'an overlap': (overlap) => layOut(part, { ...sheets, overlap }),
  'a turn': (turn) => layOut(part, { ...sheets, turn }),
  'a kerf': (kerf) => planStock(part, { kerf }),
  'a space between copies': (between) => planStock(part, { between }),
  'a board’s length': (boardLength) => planStock(part, { boardLength }),
  'a board’s width': (boardWidth) => planStock(part, { boardLength: 2000, boardWidth }),
  grain: (grain) => planStock(part, { grain }),
  'a reading checked': (offset) => checkEdge(part, edge, [{ station: 100, offset }], check),
  'a reading taken off': (station) => takeOff([...five, { station, offset: 60 }], part.rule),
};

test.each(Object.keys(asking))('%s that is no finite number is refused', (what) => {
  for (const odd of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])
    expect(
      faultsOf(() => void asking[what]!(odd)),
      String(odd),
    ).toEqual([expect.any(Fault)]);
});

test.each([
  ['pins', () => strip([], FREE), 'curve.not-finite'],
  ['points', () => spline([], 'natural', 'natural'), 'curve.not-finite'],
  ['readings to check', () => checkEdge(part, edge, [], check), 'readings.none'],
  ['readings to take off', () => takeOff([], part.rule), 'readings.none'],
] as const)('no %s at all', (_, work, code) => {
  expect(faultsOf(() => void work()).map((fault) => fault.code)).toEqual([code]);
});
