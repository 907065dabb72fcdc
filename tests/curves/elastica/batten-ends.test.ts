import { describe, expect, test } from 'vitest';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { type StripEnds, strip } from '../../../src/curves/elastica/solve-strip.ts';
import type { Point } from '../../../src/curves/geometry/point.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { SOON_MS, took } from '../../took.ts';
import { FREE } from '../batten-cases.ts';

const [FROM, TO] = [
  { x: 0, y: 0 },
  { x: 1000, y: 0 },
];
const over = (...pins: [number, number][]): Point[] => pins.map(([x, y]) => ({ x, y }));
const faulted = (code: string) => expect.objectContaining({ code });

describe('a batten', () => {
  test('one nail and a list of one nail give the same batten', () => {
    const nail = { x: 400, y: 90 };
    expect(batten(FROM, TO, { through: [nail] })).toEqual(batten(FROM, TO, { nail }));
  });

  test('the ends are free by default', () => {
    const free = batten(FROM, TO, { nail: { x: 500, y: 90 } });
    const held = batten(FROM, TO, { nail: { x: 500, y: 90 } }, { start: { held: 0 }, end: { held: 0 } });
    expect(free.exact[0]).toMatchObject({ curvature: 0 });
    expect(held.exact[0]).toMatchObject({ angle: 0 });
    // Four half-size copies of the free one's half: the same length, twice the curvature at the nail.
    expect(figuresOf(held).length).toBeCloseTo(figuresOf(free).length, 8);
    expect(figuresOf(free).tightest!.radius).toBeCloseTo(2 * figuresOf(held).tightest!.radius, 6);
  });

  test('passes many pins and names them', () => {
    const through = over([200, 60], [450, 20], [750, -50]);
    const { pins, exact, path } = batten(FROM, TO, { through });
    expect(pins).toEqual([FROM, ...through, TO]);
    expect(exact).toHaveLength(4);
    expect(path.length).toBeGreaterThanOrEqual(4);
  });

  test('with its apex asked has it there', () => {
    const ends: StripEnds = { start: { held: 0 }, end: 'free' };
    const { at, rise } = figuresOf(batten(FROM, TO, { apex: { x: 560, y: -120 } }, ends)).apex!;
    expect([at.x, at.y, rise]).toEqual([560, -120, 120].map((v) => expect.closeTo(v, 6)));
  });
});

describe('impossible input is refused with a code', () => {
  test.each([
    ['pins out of order', over([600, 20], [400, 30]), FREE, 'batten.out-of-order'],
    ['a pin beyond the end', over([1200, 30], [1300, 20]), FREE, 'batten.out-of-order'],
    ['a pin twice', over([400, 30], [400, 30]), FREE, 'curve.same-point'],
    ['a pin on an end', over([0, 0], [400, 30]), FREE, 'curve.same-point'],
    ['a pin that is no number', over([400, Number.NaN]), FREE, 'curve.not-finite'],
    ['an endless pin', over([400, 20], [600, Number.POSITIVE_INFINITY]), FREE, 'curve.not-finite'],
    [
      'an angle that is no number',
      over([400, 20]),
      { start: { held: Number.NaN }, end: 'free' } as StripEnds,
      'curve.not-finite',
    ],
    ['pins far too high', over([300, 1e6], [600, -1e6]), FREE, 'batten.too-high'],
    ['ends turned back', [], { start: { held: 3 }, end: { held: -3 } } as StripEnds, 'batten.too-high'],
  ])('%s', (_, through, ends, code) => {
    expect(() => batten(FROM, TO, { through }, ends)).toThrow(faulted(code));
  });

  test('the fault of a strip over many pins gives the share of the offsets that is possible', () => {
    const wild = over([200, 400], [500, -300], [700, 300]);
    const raised = (share: number) => () =>
      batten(FROM, TO, { through: wild.map(({ x, y }) => ({ x, y: y * share })) });
    let said = 0;
    try {
      raised(1)();
    } catch (fault) {
      said = Number(/snaps over at (\d+)%/.exec((fault as Error).message)![1]) / 100;
    }
    expect(said).toBeGreaterThan(0.3);
    expect(raised(said)).not.toThrow();
    expect(raised(said + 0.01)).toThrow(faulted('batten.too-high'));
  });
});

/** A zigzag takes half of the usual time when nothing else runs, and three times that when much does. */
const BUSY = 2;

describe('a thousand pins are done with soon', () => {
  const pins = (offset: (i: number) => number): Point[] =>
    Array.from({ length: 1000 }, (_, i) => ({ x: 2 * i, y: offset(i) }));

  test('a long wave is bent', () => {
    expect(
      took(() =>
        strip(
          pins((i) => 60 * Math.sin(i / 60)),
          FREE,
        ),
      ),
    ).toBeLessThan(SOON_MS);
  });

  test('a zigzag that no strip follows is refused', () => {
    const refused = () =>
      expect(() =>
        strip(
          pins((i) => 5 * (i % 2)),
          FREE,
        ),
      ).toThrow(/1000 nails|snaps over/);
    expect(took(refused)).toBeLessThan(BUSY * SOON_MS);
  });
});
