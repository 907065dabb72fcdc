import { signedDistanceFrom } from '../../../src/check/fit/rigid-fit.ts';
import { type TakeOff, takeOff } from '../../../src/check/fit/take-off.ts';
import type { StationReading } from '../../../src/check/readings/read-readings.ts';
import type { Curve } from '../../../src/curves/curve.ts';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { bow } from '../../../src/curves/elastica/bow.ts';
import { FREE_ENDS } from '../../../src/curves/elastica/solve-strip.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../../src/curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../../src/curves/geometry/point.ts';
import { arc } from '../../../src/curves/simple/arc.ts';
import { line } from '../../../src/curves/simple/line.ts';
import { spline } from '../../../src/curves/simple/spline.ts';
import { offsetsAt } from '../../../src/part/offsets.ts';
import type { Rule } from '../../../src/units/rule.ts';
import { readOnRule } from '../../../src/units/rule.ts';
import { normal, seeded, THIRTY_SECONDS } from '../../check/bench.ts';

/** Parts of known truth, read by hand: with one reading wrong somewhere, or with none. */

const CHORD = 711; // 28 in

const [A, B] = [point(0, 20), point(CHORD, 20)];
const corner = (share: number): Point => point(share * CHORD, 20);
const over = (a: Point, b: Point, rise: number, ends = FREE_ENDS): Curve =>
  batten(a, b, { nail: point(a.x + 0.45 * (b.x - a.x), 20 + rise) }, ends);
const HELD = { held: 0 };

const SHAPES = {
  arc: (rise: number) => [arc(A, B, { rise })],
  bow: (rise: number) => [bow(A, B, rise)],
  'batten over a nail in the middle': (rise: number) => [batten(A, B, { nail: point(CHORD / 2, 20 + rise) })],
  'batten over a nail aside': (rise: number) => [
    batten(A, B, { nail: point(0.35 * CHORD, 20 + 0.8 * rise) }),
  ],
  ogee: (rise: number) => [
    spline(
      [A, point(CHORD / 4, 20 + rise / 2), point((3 * CHORD) / 4, 20 - rise / 2), B],
      'natural',
      'natural',
    ),
  ],
} as const satisfies Readonly<Record<string, (rise: number) => readonly Curve[]>>;

/** Battens held in a line, and curves beside straight parts. */
export const HELD_SHAPES = {
  'batten held at its left end': (rise: number) => [over(A, B, rise, { start: HELD, end: 'free' })],
  'batten held at both ends': (rise: number) => [over(A, B, rise, { start: HELD, end: HELD })],
  'straight, then an arc': (rise: number) => [line(A, corner(0.3)), arc(corner(0.3), B, { rise })],
  'straight, then a held batten': (rise: number) => [
    line(A, corner(0.25)),
    over(corner(0.25), B, rise, { start: HELD, end: 'free' }),
  ],
  'arc between straight parts': (rise: number) => [
    line(A, corner(0.2)),
    arc(corner(0.2), corner(0.8), { rise }),
    line(corner(0.8), B),
  ],
} as const satisfies Readonly<Record<string, (rise: number) => readonly Curve[]>>;

const ALL_SHAPES = { ...SHAPES, ...HELD_SHAPES };
export type TakenShape = keyof typeof ALL_SHAPES;

export interface TakeOffSet {
  readonly shapes?: readonly TakenShape[];
  readonly rises: readonly number[];
  readonly readings: readonly number[];
  /** Standard deviation of the hand, mm. */
  readonly hands: readonly number[];
  /** How far off the wrong reading is, mm; 0 for none. */
  readonly wrongBy: readonly number[];
  readonly seeds: number;
}

export interface TakenCase {
  readonly shape: TakenShape;
  readonly rise: number;
  readonly count: number;
  readonly hand: number;
  readonly wrongBy: number;
  readonly wrongStation: number | undefined;
  readonly truth: readonly Piece[];
  readonly readings: readonly StationReading[];
}

function* takenCases({ shapes, rises, readings, hands, wrongBy, seeds }: TakeOffSet): Generator<TakenCase> {
  for (const shape of shapes ?? (Object.keys(SHAPES) as TakenShape[]))
    for (const rise of rises)
      for (const count of readings)
        for (const hand of hands)
          for (const by of wrongBy)
            for (let seed = 1; seed <= seeds; seed++) {
              const random = seeded(7919 * seed + 31 * count + Math.round(1000 * (rise + hand)) + by);
              const truth = ALL_SHAPES[shape](rise * CHORD).flatMap(({ exact }) => exact);
              const wrong = by > 0 ? Math.floor(random() * count) : -1;
              const way = random() < 0.5 ? -1 : 1;
              const taken = Array.from({ length: count }, (_, i) => {
                const station = (CHORD * i) / (count - 1);
                const error = hand * normal(random) + (i === wrong ? way * by : 0);
                const offset = (offsetsAt({ pieces: truth }, station)[0] ?? 20) + error;
                return { station, offset: readOnRule(offset, THIRTY_SECONDS).mark };
              });
              yield {
                shape,
                rise,
                count,
                hand,
                wrongBy: by,
                wrongStation: taken[wrong]?.station,
                truth,
                readings: taken,
              };
            }
}

export interface TakenVerdict {
  readonly named: boolean;
  readonly blamed: number;
  /** The farthest that the line taken off lies from the truth, in standard errors of a reading. */
  readonly worst: number;
  readonly taken: TakeOff;
}

function verdictOf(each: TakenCase, rule: Rule = THIRTY_SECONDS): TakenVerdict {
  const taken = takeOff(each.readings, rule);
  const named = taken.outliers.map(({ at }) => at.x);
  const distanceOf = signedDistanceFrom(taken.kinds[0].curves.flatMap(({ exact }) => exact));
  const sigma = Math.hypot(taken.sigma, each.hand);
  const off = pointsOn(each.truth).map((p) => Math.abs(distanceOf(p).distance));
  return {
    named: each.wrongStation !== undefined && named.includes(each.wrongStation),
    blamed: named.filter((station) => station !== each.wrongStation).length,
    worst: Math.max(...off) / sigma,
    taken,
  };
}

const pointsOn = (pieces: readonly Piece[]) =>
  pieces.flatMap((piece) => Array.from({ length: 41 }, (_, i) => paramCurve(piece)(i / 40)));

const SET: TakeOffSet = {
  rises: [0.03, 0.1, 0.25],
  readings: [9, 13, 25],
  hands: [0.25],
  wrongBy: [0],
  seeds: 1,
};

export const takenVerdicts = (set: Partial<TakeOffSet>) =>
  [...takenCases({ ...SET, ...set })].map((each) => verdictOf(each));
