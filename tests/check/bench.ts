import type { StationReading } from '../../src/check/readings/read-readings.ts';
import { offsetAt, REFERENCE_LINE } from '../../src/part/offsets.ts';
import type { PartEdge } from '../../src/part/part.ts';
import { type Rule, readOnRule } from '../../src/units/rule.ts';

export const IN = 25.4;
export const THIRTY_SECONDS: Rule = { unit: 'in', graduation: { numerator: 1, denominator: 32 } };
export const SIXTEENTHS: Rule = { unit: 'in', graduation: { numerator: 1, denominator: 16 } };

/** A seeded stream of numbers evenly spread in [0, 1): mulberry32, in the public domain. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Normally spread with standard deviation 1 (Box and Muller, Annals of Mathematical Statistics 29, 1958). */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** Stations a distance apart, both ends among them. */
export const stationsOf = (edge: PartEdge, every: number): number[] => {
  const [from, to] = [edge.runs[0]!.from.x, edge.runs.at(-1)!.to.x];
  const count = Math.round((to - from) / every);
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
};

/** The edge's true offsets as readings. */
export const trueReadings = (
  edge: PartEdge,
  stations: readonly number[],
  base = REFERENCE_LINE,
): StationReading[] => stations.map((station) => ({ station, offset: offsetAt(edge, station, base)! }));

/** Readings as a hand takes them: an error of its own, then rounded to the rule. */
export const byHand = (
  readings: readonly StationReading[],
  rule: Rule,
  handMm: number,
  random: () => number,
): StationReading[] =>
  readings.map(({ station, offset }) => ({
    station,
    offset: readOnRule(offset + handMm * normal(random), rule).mark,
  }));

/** Readings that no curve passes, each up to 200 mm anywhere. */
export function noise(count: number): StationReading[] {
  const random = seeded(1);
  return Array.from({ length: count }, (_, i) => ({ station: i, offset: 200 * random() }));
}
