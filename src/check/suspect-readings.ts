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

/** The scatter that a cause may leave: nine good readings scatter by more once in a hundred times. */
const MAX_LEFT_SIGMAS = 1.5;

/** Readings count as misread if another way of reading them divides the rms by this factor. */
const MISREAD_RMS_FACTOR = 4;

/** For a part outside the tolerance, signs of a measuring mistake: a reading can be repeated, a cut cannot. */
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
      `"${edge.name}" has no wood at station ${stations} after the ${cut.side} end is cut: the wood ${turn} at ` +
      `${show(toBaseLine(cut.at, base).x)}. A reading there is valid only before that cut.`;
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
      const message = `The readings fit "${other.name}" much better. Check them against that edge.`;
      return ['check.other-edge', message, readings, other];
    }),
    ...leftCuts.map(({ at }): Misreading => {
      const corner = toBaseLine(at, base).x;
      const past = corner - from;
      return [
        'check.from-corner',
        `The readings fit much better when counted from the corner of the cut left end, at station ${showLength(corner, rule)}. Add ${showLength(past, rule)} to each station.`,
        readings.map((each) => ({ ...each, station: each.station + past })),
      ];
    }),
    [
      'check.other-end',
      'The readings fit much better when counted from the other end. Turn the part so that its left end is at station 0, and measure again.',
      readings.map((each) => ({ ...each, station: from + to - each.station })),
    ],
    [
      'check.other-side',
      'The readings fit much better with the opposite sign. Change the sign of each offset.',
      mirrorReadings(readings),
    ],
    [
      'check.changed-over',
      'The readings fit much better with station and offset swapped. Write the station first.',
      readings.map((each) => ({ ...each, station: each.offset, offset: each.station })),
    ],
    inOtherUnit && [
      'check.other-unit',
      `The readings fit much better in ${rule.unit === 'in' ? 'mm' : 'inches'}. Write the unit with each reading.`,
      inOtherUnit,
    ],
  );
}

/** On a steeper line, shifting the rule along it changes an offset by more than the shift, radians. */
const STEEP = Math.PI / 4;

/** An offset where the line climbs steeply is a poor reading: square to the line the error is smaller. */
function steepWarnings({ readings }: EdgeCheck, rule: Rule): Warning[] {
  const steep = readings.filter(({ climb }) => climb > STEEP);
  if (steep.length === 0) return [];
  const stations = steep.map(({ station }) => showLength(station, rule)).join(', ');
  const message =
    `The edge is steeper than 45° at station ${stations}, so a small shift along it changes the offset a lot. ` +
    'fairlath measures the wood square to the edge there.';
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
      const message = `The edge is ${by} all along. The part was set that much off the rule, or it was sawn that way. Measure its width to find out.`;
      return [{ code: 'check.set-crooked', message }];
    }
    case 'crooked':
      return [{ code: 'check.set-crooked', message: CROOKED_WORDS }];
  }
}

const CROOKED_WORDS =
  'The part was set crooked, or it was sawn that way. Set it straight and measure again. If the readings stay the same, it was sawn that way.';

function wrongRise(edge: PartEdge, bend: number, rule: Rule): string {
  const by = showNearest(Math.abs(bend), rule);
  const apexes = edge.runs.flatMap((run) => figuresOf(run).apex ?? []);
  const [apex] = apexes;
  const middle = `The ends are right, and the middle is ${by} ${bend > 0 ? 'proud' : 'shy'}.`;
  if (!apex || apexes.length > 1) return middle;
  const [from, to] = [edgeStart(edge), edgeEnd(edge)];
  const isLeft = cross(subtract(to, from), subtract(apex.at, from)) > 0;
  const isTooHigh = bend > 0 === (isLeft !== edge.woodIsAbove);
  const cause = isTooHigh ? '' : ' On a laminated part this is springback.';
  return `${middle} The rise is ${by} too ${isTooHigh ? 'large' : 'small'}.${cause}`;
}

/** A saw leaves a smooth error. A single reading that is far off is more often a measuring mistake. */
const wrongReadingWarning = ({ station, off }: Explanation['wrong'][number], rule: Rule): Warning => ({
  code: 'check.odd-reading',
  message: `The reading at station ${showLength(station, rule)} is ${showNearest(Math.abs(off), rule)} ${off > 0 ? 'proud' : 'shy'} of what the others show. Measure it again before you remove any wood.`,
});
