import { undefinedOnFault } from '../curves/try-curve.ts';
import { cutEnds, isCutOff } from '../part/ends/cut-ends.ts';
import { type BaseLine, stationRangeAlong, toBaseLine } from '../part/offsets.ts';
import type { Part, PartEdge } from '../part/part.ts';
import type { Warning } from '../units/fault.ts';
import { graduationMm, showNearest } from '../units/graduation.ts';
import { present } from '../units/lists.ts';
import { type Rule, readOnRule, showLength } from '../units/rule.ts';
import { type CheckOptions, checkEdge, type EdgeCheck } from './check-edge.ts';
import { mirrorReadings } from './compare-pair.ts';
import { separateOutliers } from './readings/find-outliers.ts';
import type { StationReading } from './readings/read-readings.ts';
import { maxReadingError, readingSigma } from './readings/reading-error.ts';
import { readingsInOtherUnit } from './suspect-unit.ts';

/** Shift and turn fit any two readings; a third and a fourth can contradict them. */
export const MIN_ALIGNMENT_READINGS = 4;

/** Shift and turn then explain three quarters of the squares. One place sawn wrong keeps most of its rms. */
const MAX_REMAINING_RMS_SHARE = 0.5;

const isMisaligned = ({ verdict, bestFit, tolerance, readings, rms }: EdgeCheck, rule: Rule): boolean =>
  verdict === 'outside' &&
  readings.length >= MIN_ALIGNMENT_READINGS &&
  bestFit.worst <= tolerance + maxReadingError(rule) &&
  bestFit.rms <= MAX_REMAINING_RMS_SHARE * rms;

/** Readings count as misread where the other way of reading them lowers the rms by this factor. */
const MISREAD_RMS_FACTOR = 4;

/**
 * Warns of readings past the cut of an end and, where the part is outside, of signs that the measuring is wrong rather
 * than the wood. Wood is gone for good, a reading can be repeated.
 */
export function suspectReadings(
  part: Part,
  edge: PartEdge,
  check: EdgeCheck,
  readings: readonly StationReading[],
  options: CheckOptions,
): Warning[] {
  const { rule } = part;
  const pastCut = readingsPastCut(part, edge, readings, options.base);
  if (check.verdict === 'within') return pastCut;
  const misread = possibleMisreadings(edge, readings, options.base, rule).find(([, , otherwise]) => {
    const found = undefinedOnFault(() => checkEdge(part, edge, otherwise, options));
    return found !== undefined && found.rms * MISREAD_RMS_FACTOR < check.rms;
  });
  if (misread && readings.length >= MIN_ALIGNMENT_READINGS) {
    const [code, message] = misread;
    return [...pastCut, { code, message }];
  }
  return [
    ...pastCut,
    ...(isMisaligned(check, rule) ? [misalignedWarning(check, rule)] : outlierWarnings(check, rule)),
  ];
}

const readingsPastCut = (
  part: Part,
  edge: PartEdge,
  readings: readonly StationReading[],
  base: BaseLine,
): Warning[] =>
  cutEnds(part, edge).flatMap((cut) => {
    const show = (mm: number): string => showLength(mm, part.rule);
    // An end is read to the nearest graduation, too.
    const near = graduationMm(part.rule) * (cut.side === 'left' ? 1 : -1);
    const past = readings.filter(({ station }) => isCutOff([cut], station + near, base));
    if (past.length === 0) return [];
    const stations = past.map(({ station }) => show(station)).join(', ');
    const turn = cut.side === 'left' ? 'begins' : 'ends';
    const message =
      `Once the ${cut.side} end is cut there is no wood on "${edge.name}" at station ${stations}: it ${turn} at ` +
      `${show(toBaseLine(cut.at, base).x)}. A reading there counts before the cut alone, while the line runs on.`;
    return [{ code: 'check.past-end', message }];
  });

type Misreading = readonly [code: string, message: string, otherwise: readonly StationReading[]];

/** Other ways of reading the readings, and the warning if they then lie on the line. */
function possibleMisreadings(
  edge: PartEdge,
  readings: readonly StationReading[],
  base: BaseLine,
  rule: Rule,
): Misreading[] {
  const [from, to] = stationRangeAlong(edge, base);
  const inOtherUnit = readingsInOtherUnit(edge, readings, base, rule);
  return present<Misreading>(
    [
      'check.other-end',
      'Counted from the other end, the readings lie on the line far better. Count the stations from the left end, the part the right way round, and measure again.',
      readings.map((each) => ({ ...each, station: from + to - each.station })),
    ],
    [
      'check.other-side',
      'With their offsets on the other side of the line, the readings lie on it far better. Change the signs of the offsets.',
      mirrorReadings(readings),
    ],
    [
      'check.changed-over',
      'With station and offset changed over, the readings lie on the line far better. Write the station first.',
      readings.map((each) => ({ ...each, station: each.offset, offset: each.station })),
    ],
    inOtherUnit && [
      'check.other-unit',
      `Taken in ${rule.unit === 'in' ? 'mm' : 'inches'}, the readings lie on the line far better. Write their unit with them.`,
      inOtherUnit,
    ],
  );
}

/** Where both ends are off alike, a part sawn too narrow reads like a part set off the rule. */
function misalignedWarning({ endDeviations: [first, last] }: EdgeCheck, rule: Rule): Warning {
  const start = readOnRule(first.proud, rule).mark;
  const message =
    start === readOnRule(last.proud, rule).mark
      ? `It is ${showLength(Math.abs(start), rule)} ${start > 0 ? 'proud' : 'shy'} all along: the part lay that much off the rule, or is sawn so. Measure its width to tell.`
      : 'The part lay crooked against the rule, or is sawn so: set true to it, it is within. Lay it anew and measure; where it reads the same again, it is sawn so.';
  return { code: 'check.set-crooked', message };
}

/** A saw leaves a smooth error; a reading that stands out alone is more often a mistake of the rule. */
function outlierWarnings({ readings, tolerance }: EdgeCheck, rule: Rule): Warning[] {
  const rising = readings
    .map(({ station, deviation }) => ({ x: station, y: deviation }))
    .toSorted((a, b) => a.x - b.x);
  const limit = tolerance + maxReadingError(rule);
  return separateOutliers(rising, readingSigma(rule))
    .bad.filter(({ at }) => Math.abs(at.y) > limit)
    .map(({ at, off }) => ({
      code: 'check.odd-reading',
      message: `The reading at station ${showLength(at.x, rule)} is ${showNearest(Math.abs(off), rule)} ${off > 0 ? 'proud' : 'shy'} of its neighbours. Measure it again before you take any wood off.`,
    }));
}
