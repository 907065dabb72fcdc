import { expect, test } from 'vitest';
import { batten } from '../../src/curves/elastica/batten.ts';
import { freeRiseLimit } from '../../src/curves/elastica/three-pin-closed-form.ts';
import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../src/curves/geometry/tolerance.ts';
import { parallelPath } from '../../src/curves/offset/offset-curve.ts';
import { faultsOf } from '../fuzz/answers.ts';
import { Random, ROUNDS } from '../fuzz/random.ts';
import { anyBench, anyShare, spread } from './cases.ts';
import { sagitta, slowDistance } from './slow.ts';

/** Twenty rounds are two thousand of each. */
const A_ROUND = 100;

/** Places on each cubic that is measured. */
const PLACES = 5;

const placesOn = (path: readonly Piece[]): Point[] =>
  path.flatMap((segment) => {
    const at = paramCurve(segment);
    return Array.from({ length: PLACES + 1 }, (_, i) => at(i / PLACES));
  });

test('a fitted strip lies within the fit of the exact one, and its parallel at its distance', () => {
  let good = 0;
  for (let i = 0; i < A_ROUND * ROUNDS; i++) {
    const random = new Random(i);
    const { place, chord } = anyBench(random);
    const share = anyShare(random);
    const height = freeRiseLimit(share) * spread(random, 1e-6, 0.95);
    const told = `case ${i} of this seed`;
    faultsOf(() => {
      const { exact, path } = batten(place(0, 0), place(1, 0), { nail: place(share, height) });
      const off = slowDistance(exact);
      const slack = FIT_MM + Math.max(...exact.map(sagitta));
      expect(Math.max(...placesOn(path).map(off)), told).toBeLessThan(slack);
      const away = spread(random, 0.1, Math.min(chord / 20, 50)) * (random.next() < 0.5 ? 1 : -1);
      const saw = placesOn(parallelPath(exact, away, false)).map(off);
      expect(Math.max(...saw), told).toBeLessThan(Math.abs(away) + slack);
      good++;
    });
  }
  expect(good).toBeGreaterThan((A_ROUND * ROUNDS) / 2);
}, 600_000);

test('two lines that meet at any angle have their parallel at its distance or farther, or are refused', () => {
  for (let i = 0; i < A_ROUND * ROUNDS; i++) {
    const random = new Random(i);
    const { place } = anyBench(random);
    const turn = (random.next() < 0.5 ? 1 : -1) * spread(random, 1e-9, Math.PI);
    const corner = place(0.5, 0);
    const far = place(0.5 + 0.5 * Math.cos(turn), 0.5 * Math.sin(turn));
    const pieces: Piece[] = [
      { type: 'line', from: place(0, 0), to: corner },
      { type: 'line', from: corner, to: far },
    ];
    const away = spread(random, 1e-3, distance(corner, far) / 2) * (random.next() < 0.5 ? 1 : -1);
    const told = `case ${i} of this seed: turn ${turn}, away ${away}`;
    const faults = faultsOf(() => {
      const off = placesOn(parallelPath(pieces, away, false)).map(slowDistance(pieces));
      expect(Math.min(...off), told).toBeGreaterThan(Math.abs(away) * (1 - 1e-6) - 1e-6);
      // A corner sharper than square is cut off at the distance: √2 of it at most.
      expect(Math.max(...off), told).toBeLessThan(Math.abs(away) * Math.SQRT2 * (1 + 1e-6) + 1e-6);
    });
    for (const { code } of faults) expect(code, told).toBe('parallel.no-room');
  }
}, 600_000);
