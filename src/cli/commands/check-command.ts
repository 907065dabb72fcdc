import { type CheckOptions, checkEdge, type EdgeCheck } from '../../check/check-edge.ts';
import { comparePair, mirrorReadings, type PairCheck } from '../../check/compare-pair.ts';
import { suspectReadings } from '../../check/suspect-readings.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { graduationMm } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { degrees } from '../../units/number-format.ts';
import { jobCommand } from '../define-command.ts';
import { writePicture } from '../files/atomic-write.ts';
import { type MeasuredReadings, parseReadingOptions, readReadingsFile } from '../files/readings-file.ts';
import { selectBaseLine, selectEdge } from '../options/edge-options.ts';
import type { JobInput } from '../options/job-input.ts';
import { type OptionValues, option, readLengths, repeatedOption } from '../options/option-spec.ts';
import { edgeOption, forceOption, fromOption, pictureOption } from '../options/shared-options.ts';
import { checkText, pairText } from '../output/check-text.ts';
import { pick } from '../output/print-answer.ts';
import { withFaultContext } from '../output/report-errors.ts';
import { readSpringback, springbackText, withSpringback } from '../output/springback-output.ts';

const OPTIONS = [
  option('--measured <FILE.csv>', 'file of your readings, one on each line: station, comma, offset'),
  repeatedOption(
    '--reading <station=offset>',
    'one reading, such as "6=2 19/32"; repeat the option for each reading',
  ),
  edgeOption('edge that you measured; needed if the part has two'),
  fromOption,
  option('--tolerance <length>', 'largest error to accept (default: one graduation of your rule)'),
  option('--before-sanding', 'compare with the saw line, and show what is left to remove'),
  option('--pair <FILE.csv>', 'readings of the second part of the pair, to compare with the first'),
  option('--mirrored', 'read the second part as mirrored, its offsets on the other side of the line'),
  pictureOption('also draw the errors, enlarged; with --pair, those of both parts'),
  forceOption,
] as const;

type CheckCommandOptions = OptionValues<typeof OPTIONS>;

export const makeCommand = jobCommand({
  name: 'check',
  summary: 'the sawn part compared with its finished line',
  description:
    'Compare the sawn part with its finished line. List how proud or shy it is at each station that you measured, and ' +
    'whether it is within tolerance.',
  options: OPTIONS,
  needs: ['--measured FILE', '--reading STATION=OFFSET ...'],
  notes: [
    'Proud means too much wood, shy means too little. fairlath also shifts and rotates the curve to fit the readings ' +
      'best. What remains is the sawing error, without the error of a part that was set crooked. The typical error is ' +
      'the root mean square of all.',
    'fairlath warns about readings from the wrong end or side, about swapped columns, and about a reading that stands ' +
      'out. Measure again before you remove wood.',
    'On a laminated part, fairlath finds the springback. Bend a trial piece, measure it, and write the number into the job.',
    'If the part is outside the tolerance, the exit code is still 0.',
  ],
  files: 'Reads JOB and the readings. Writes the SVG that --picture names.',
  examples: [
    'fairlath check samples/hall-bench-leg.yaml --edge back --measured samples/hall-bench-leg-measured.csv',
    'fairlath check samples/hall-bench-leg.yaml --edge back --measured samples/hall-bench-leg-measured.csv --picture check.svg',
    'fairlath check samples/hall-bench-leg.yaml --edge back --before-sanding --reading "12=3 5/16"',
    'fairlath check --curve arc --chord 28 --rise 3/4 --reading 7=9/16 --reading 14=3/4',
  ],
  run: async (input, options) => {
    const { part, file } = input;
    const edge = selectEdge(part, options);
    const checkOptions = readCheckOptions(part, edge, options);
    const checkReadings = ({ readings, context }: MeasuredReadings) =>
      withFaultContext(context, () => {
        const check = checkEdge(part, edge, readings, checkOptions);
        return { check, suspects: suspectReadings(part, edge, check, readings, checkOptions) };
      });
    const first = readMeasuredPart(input, options);
    const { check, suspects: found } = checkReadings(first);
    const springback = readSpringback(part, edge, first.readings, check);
    const suspects = withSpringback(found, springback, check, part.rule);
    const measuredSecond = readSecondPart(input, options);
    const second = measuredSecond && checkReadings(measuredSecond);
    const pair = second && requirePair(check, second.check, options);
    const ofSecond = (second?.suspects ?? []).map((each) => warningOfSecond(each, options));
    await writePicture(options, [file, options.measured, options.pair], part.name, async () =>
      (await import('../../export/pictures/check-picture.ts')).composeCheckPicture(
        part,
        check,
        second?.check.readings,
      ),
    );
    return {
      part,
      jsonWarnings: [...part.warnings, ...suspects, ...ofSecond],
      json: () => ({ ...asJson(check), pair, springback }),
      text: () =>
        present(
          checkText(part, check, checkOptions.beforeSanding, springback !== undefined),
          springback && springbackText(springback, part.rule),
          ...suspects.map(({ message }) => message),
          pair && pairText(pair, part, check),
          ...ofSecond.map(({ message }) => message),
        ).join('\n\n'),
    };
  },
});

function readCheckOptions({ rule }: Part, edge: PartEdge, options: CheckCommandOptions): CheckOptions {
  const { tolerance = graduationMm(rule) } = readLengths(options, ['tolerance'], rule.unit);
  return { base: selectBaseLine(edge, options), tolerance, beforeSanding: options.beforeSanding ?? false };
}

function readMeasuredPart({ part, context }: JobInput, { measured, reading }: CheckCommandOptions) {
  if (measured !== undefined && reading.length > 0)
    throw new Fault('command.two-measured', 'Use --measured or --reading, not both.');
  if (measured !== undefined) return readReadingsFile(measured, part.rule.unit, context.length);
  if (reading.length > 0) return parseReadingOptions(reading, part.rule.unit, context.length);
  const wording =
    'no readings given. Give a file with --measured, or single readings such as --reading 6=1/2 --reading 12=3/4.';
  throw new Fault('command.no-readings', wording);
}

function readSecondPart({ part, context }: JobInput, { pair, mirrored: isMirrored }: CheckCommandOptions) {
  if (pair === undefined) {
    if (isMirrored)
      throw new Fault(
        'command.no-pair',
        '--mirrored: the second part is missing. Add its readings with --pair.',
      );
    return undefined;
  }
  const measured = readReadingsFile(pair, part.rule.unit, context.length);
  return isMirrored ? { ...measured, readings: mirrorReadings(measured.readings) } : measured;
}

/** A mistake in measuring the second part must not look like a difference between the parts. */
function warningOfSecond({ code, message }: Warning, { mirrored: isMirrored }: CheckCommandOptions): Warning {
  const cure = code === 'check.other-side' ? ` Or ${isMirrored ? 'leave out' : 'add'} --mirrored.` : '';
  return {
    code: code.replace('check.', 'check.second-'),
    message: `Second part: ${message.charAt(0).toLowerCase()}${message.slice(1)}${cure}`,
  };
}

function requirePair(first: EdgeCheck, second: EdgeCheck, { pair }: CheckCommandOptions): PairCheck {
  const found = comparePair(first.readings, second.readings);
  if (found) return found;
  const wording = `--pair: ${pair} has no station of the first part. Measure both parts at the same stations.`;
  throw new Fault('check.pair-apart', wording);
}

const asJson = ({ readings, bestFit, verdict, ...check }: EdgeCheck): object => ({
  ...pick(check, 'edge', 'tolerance'),
  readings: readings.map((each) => pick(each, 'station', 'measured', 'design', 'deviation', 'square')),
  ...pick(check, 'worst', 'rms'),
  bestFit: { shift: bestFit.shift, rotateDeg: degrees(bestFit.turn), ...pick(bestFit, 'worst', 'rms') },
  verdict,
});
