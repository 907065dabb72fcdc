import { type BaseLine, stationRangeAlong } from '../part/offsets.ts';
import type { PartEdge } from '../part/part.ts';
import { type Warning, warningsThatApply } from '../units/fault.ts';
import { graduationMm } from '../units/graduation.ts';
import { type Rule, showLength } from '../units/rule.ts';
import { MM_PER_INCH } from '../units/unit.ts';
import type { StationReading } from './readings/read-readings.ts';

/** 6 m, near 20 ft: boards are sold no longer. Common practice, no published source. */
const MAX_PART_MM = 6000;

/** A part whose length in inches would be usual for furniture, mm. */
const SHORT_PART_MM = 100;

/** A rule in mm shows tenths at the finest, a rule in inches 1/64. */
const [TENTHS_PER_MM, MARKS_PER_INCH] = [10, 64];

const isWhole = (x: number): boolean => Math.abs(x - Math.round(x)) < 1e-6;

/** Halves are on both rules, quarters are not. */
const areInchFractions = (figures: readonly number[]): boolean =>
  figures.every((mm) => isWhole(mm * MARKS_PER_INCH)) && figures.some((mm) => !isWhole(mm * TENTHS_PER_MM));

/** Warns where readings of a part look as if they were taken in the other unit. */
export function suspectUnitWarnings(readings: readonly StationReading[], rule: Rule): Warning[] {
  const stations = readings.map(({ station }) => station);
  const length = Math.max(...stations) - Math.min(...stations);
  const isShort = stations.every((station) => Math.abs(station) <= SHORT_PART_MM);
  const size = `the part would be ${showLength(length, rule)} long`;
  const inMm = `${size}. If the readings are in mm, use --units mm.`;
  const inInches = `${size}, and the readings look like fractions of an inch. If they are in inches, use --units in.`;
  const areFractions = areInchFractions(readings.flatMap(({ station, offset }) => [station, offset]));
  return warningsThatApply([
    [rule.unit === 'in' && length > MAX_PART_MM, 'take-off.other-unit', inMm],
    [rule.unit === 'mm' && isShort && areFractions, 'take-off.other-unit', inInches],
  ]);
}

/** The readings as taken in the other unit, if they then span over half of the edge: a few near its start fit any unit. */
export function readingsInOtherUnit(
  edge: PartEdge,
  readings: readonly StationReading[],
  base: BaseLine,
  rule: Rule,
): StationReading[] | undefined {
  const factor = rule.unit === 'in' ? 1 / MM_PER_INCH : MM_PER_INCH;
  const otherwise = readings.map(({ station, offset, ...each }) => {
    return { ...each, station: station * factor, offset: offset * factor };
  });
  const [from, to] = stationRangeAlong(edge, base);
  const stations = otherwise.map(({ station }) => station);
  const [low, high] = [Math.min(...stations), Math.max(...stations)];
  const near = graduationMm(rule);
  const liesAlong = low >= from - near && high <= to + near && high - low > (to - from) / 2;
  return liesAlong ? otherwise : undefined;
}
