import { cross, subtract } from '../curves/geometry/point.ts';
import { figuresOf } from '../curves/measurements.ts';
import { undefinedOnFault } from '../curves/try-curve.ts';
import { edgeEnd, edgeStart } from '../part/edge.ts';
import { cutEnds, isCutOff } from '../part/ends/cut-ends.ts';
import { type BaseLine, stationRangeAlong, toBaseLine } from '../part/offsets.ts';
import type { Part, PartEdge } from '../part/part.ts';
import type { Warning } from '../units/fault.ts';
import { graduationMm } from '../units/graduation.ts';
import { present } from '../units/lists.ts';
import { type Rule, showLength, showNearest } from '../units/rule.ts';
import { type CheckOptions, checkEdge, type EdgeCheck } from './check-edge.ts';
import { mirrorReadings } from './compare-pair.ts';
import { type Explanation, explainDeviations } from './explain-deviations.ts';
import type { StationReading } from './readings/read-readings.ts';
import { maxReadingError, readingSigma } from './readings/reading-error.ts';
import { readingsInOtherUnit } from './suspect-unit.ts';

/** Shift and turn fit any two readings; a third and a fourth can contradict them. */
export const MIN_ALIGNMENT_READINGS = 4;

/** What a cause leaves is the hand's. Nine good readings scatter by more once in a hundred times. */
const MAX_LEFT_SIGMAS = 1.5;

/** Readings count as misread where the other way of reading them lowers the rms by this factor. */
const MISREAD_RMS_FACTOR = 4;

/** Where the part is outside, signs that the measuring is wrong: wood is gone for good, a reading can be repeated. */
export function suspectReadings(
  part: Part,
  edge: PartEdge,
  check: EdgeCheck,
  readings: readonly StationReading[],
  options: CheckOptions,
): Warning[] {
  const { rule } = part;
  const certain = [...readingsPastCut(part, edge, readings, options.base), ...steepWarnings(check, rule)];
  if (check.verdict === 'within') return certain;
  const misread = possibleMisreadings(part, edge, readings, options.base).find(([, , otherwise, other]) => {
    const found = undefinedOnFault(() => checkEdge(part, other ?? edge, otherwise, options));
    return found !== undefined && found.rms * MISREAD_RMS_FACTOR < check.rms;
  });
  if (misread && readings.length >= MIN_ALIGNMENT_READINGS) {
    const [code, message] = misread;
    return [...certain, { code, message }];
  }
  const limit = check.tolerance + maxReadingError(rule);
  const explanation = explainDeviations(check.readings, readingSigma(rule), limit);
  const { worst, rms } = explanation.left;
  const isClear = worst <= limit && rms <= MAX_LEFT_SIGMAS * readingSigma(rule);
  const isWhole = isClear && readings.length >= MIN_ALIGNMENT_READINGS;
  const wrong = explanation.wrong.filter(({ off }) => Math.abs(off) > limit);
  return [
    ...certain,
    ...(isWhole ? wholeWarnings(edge, check, explanation, rule) : []),
    ...wrong.map((one) => wrongReadingWarning(one, rule)),
  ];
}

type Readings = readonly StationReading[];

const readingsPastCut = (part: Part, edge: PartEdge, readings: Readings, base: BaseLine): Warning[] =>
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

type Misreading = readonly [code: string, message: string, as: Readings, of?: PartEdge];

function possibleMisreadings(part: Part, edge: PartEdge, readings: Readings, base: BaseLine): Misreading[] {
  const { rule } = part;
  const [from, to] = stationRangeAlong(edge, base);
  const inOtherUnit = readingsInOtherUnit(edge, readings, base, rule);
  const leftCuts = cutEnds(part, edge).filter(({ side }) => side === 'left');
  const others = part.edges.filter(({ name }) => name !== edge.name);
  return present<Misreading>(
    ...others.map((other): Misreading => {
      const message = `The readings lie far better on "${other.name}". Check them against that edge.`;
      return ['check.other-edge', message, readings, other];
    }),
    ...leftCuts.map(({ at }): Misreading => {
      const corner = toBaseLine(at, base).x;
      const past = corner - from;
      return [
        'check.from-corner',
        `Counted from the corner of the cut left end, the readings lie far better. That corner is at station ${showLength(corner, rule)}. Add ${showLength(past, rule)} to each station.`,
        readings.map((each) => ({ ...each, station: each.station + past })),
      ];
    }),
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

/** From here on a slip of the rule along the line counts for more than one square to it, radians. */
const STEEP = Math.PI / 4;

/** An offset where the line climbs steeply is a poor reading; square to the line there is less off than it says. */
function steepWarnings({ readings }: EdgeCheck, rule: Rule): Warning[] {
  const steep = readings.filter(({ climb }) => climb > STEEP);
  if (steep.length === 0) return [];
  const stations = steep.map(({ station }) => showLength(station, rule)).join(', ');
  const message =
    `The line climbs more than 45° at station ${stations}: a small slip along it changes the offset by more. ` +
    'fairlath judges the wood square to the line.';
  return [{ code: 'check.steep', message }];
}

function wholeWarnings(edge: PartEdge, check: EdgeCheck, { kind, bend }: Explanation, rule: Rule): Warning[] {
  const [first] = check.endDeviations;
  switch (kind) {
    case 'true':
      return [];
    case 'bent':
      return [{ code: 'check.wrong-rise', message: wrongRise(edge, bend, rule) }];
    case 'shifted': {
      const by = `${showNearest(Math.abs(first.proud), rule)} ${first.proud > 0 ? 'proud' : 'shy'}`;
      const message = `It is ${by} all along: the part lay that much off the rule, or is sawn so. Measure its width to tell.`;
      return [{ code: 'check.set-crooked', message }];
    }
    case 'crooked':
      return [{ code: 'check.set-crooked', message: CROOKED_WORDS }];
  }
}

const CROOKED_WORDS =
  'The part lay crooked against the rule, or is sawn so: set true to it, it is within. Lay it again and measure; where it reads the same again, it is sawn so.';

function wrongRise(edge: PartEdge, bend: number, rule: Rule): string {
  const by = showNearest(Math.abs(bend), rule);
  const apexes = edge.runs.flatMap((run) => figuresOf(run).apex ?? []);
  const [apex] = apexes;
  const middle = `Between true ends it is ${by} ${bend > 0 ? 'proud' : 'shy'} in the middle.`;
  if (!apex || apexes.length > 1) return middle;
  const [from, to] = [edgeStart(edge), edgeEnd(edge)];
  const isLeft = cross(subtract(to, from), subtract(apex.at, from)) > 0;
  const isTooHigh = bend > 0 === (isLeft !== edge.woodIsAbove);
  return `${middle} The rise is ${by} too ${isTooHigh ? 'large' : 'small'}. A bent part that has opened reads so, too.`;
}

/** A saw leaves a smooth error; a reading that stands out alone is more often a mistake of the rule. */
const wrongReadingWarning = ({ station, off }: Explanation['wrong'][number], rule: Rule): Warning => ({
  code: 'check.odd-reading',
  message: `The reading at station ${showLength(station, rule)} is ${showNearest(Math.abs(off), rule)} ${off > 0 ? 'proud' : 'shy'} of what the others say. Measure it again before you take any wood off.`,
});
