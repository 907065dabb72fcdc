import { basename, extname, resolve } from 'node:path';
import { checkEdge } from '../../check/check-edge.ts';
import { type TakeOff, takeOff } from '../../check/fit/take-off.ts';
import { kindWords, settingPoints, takeOffRemarks, writeTakeOffJob } from '../../check/fit/take-off-job.ts';
import type { StationReading } from '../../check/readings/read-readings.ts';
import { suspectUnitWarnings } from '../../check/suspect-unit.ts';
import { fileNameFor } from '../../export/drawing/file-name.ts';
import { JobFaults } from '../../job/job-faults.ts';
import { parseJob } from '../../job/parse/parse-job.ts';
import { suggestUnit } from '../../job/parse/read-values.ts';
import { edgeEnd, edgeStart } from '../../part/edge.ts';
import { makePart } from '../../part/make-part.ts';
import { REFERENCE_LINE } from '../../part/offsets.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';
import { graduationMm } from '../../units/graduation.ts';
import { defaultRule, parseGraduation, type Rule, showLength } from '../../units/rule.ts';
import { plainCommand } from '../define-command.ts';
import { writeFileAtomic, writePicture } from '../files/atomic-write.ts';
import { requireOutput } from '../files/output-file.ts';
import { readReadingsFile } from '../files/readings-file.ts';
import { LENGTH_SYNTAX } from '../help.ts';
import { atOption, type OptionValues, option, optionWithDefault } from '../options/option-spec.ts';
import { jsonOption, pictureOption } from '../options/shared-options.ts';
import { pointJson, printAnswer } from '../output/print-answer.ts';
import { withFaultContext } from '../output/report-errors.ts';

const OPTIONS = [
  option(
    '-o, --output <JOB.yaml>',
    'the job to write (default: the name of the readings with .yaml, in the current folder)',
  ),
  optionWithDefault('--units <unit>', 'of bare numbers, and of the job: in or mm (default: in)', 'in'),
  option('--graduation <length>', 'the finest mark on your rule (default: 1/32 in or 0.5 mm)'),
  option('--name <part>', 'what to call the part (default: the name of the readings)'),
  pictureOption('also draw the readings on the curve, with what they are off it, enlarged'),
  option('--force', 'replace the job even where it exists, or a picture that fairlath did not draw'),
  jsonOption,
] as const;

export const makeCommand = plainCommand({
  name: 'take-off',
  summary: 'a fair curve off an existing part, as a job',
  description:
    'Take the curve off an existing part: lay a fair curve through readings of it, name the bad readings, and ' +
    'write the curve as a job.',
  usage: 'FILE.csv [options]',
  argument: [
    '<FILE.csv>',
    'your readings, a line each: station, comma, offset, as you read them off the rule',
  ],
  options: OPTIONS,
  notes: [
    'The curve is as fair as the error of reading a rule allows. A line, an arc, a bow, half an ellipse, a batten over ' +
      'one nail, its ends free or held, and a spline are each laid on the readings. So are arcs and held battens ' +
      'beside straight parts. The one that fits best, with the fewest nails, goes into the job.',
    'At a shoulder the offset jumps. Measure each side of it into a file of its own.',
    LENGTH_SYNTAX,
  ],
  files:
    'Reads FILE.csv. Writes the job, and over one that exists only with --force; and the SVG that --picture names.',
  examples: [
    'fairlath take-off samples/hall-bench-leg-measured.csv -o leg.yaml',
    'fairlath take-off samples/hall-bench-leg-measured.csv -o leg.yaml --force --picture leg.svg',
    'fairlath take-off samples/hall-bench-leg-measured.csv -o leg-64.yaml --graduation 1/64',
  ],
  run: async (options, file) => {
    const rule = readRule(options);
    const readingsName = basename(file, extname(file));
    const output = options.output ?? fileNameFor(readingsName, '.yaml');
    if (options.picture !== undefined && resolve(options.picture) === resolve(output)) {
      const wording = `--picture and -o both name ${output}. Give each a file of its own.`;
      throw new Fault('command.one-file', wording);
    }
    requireOutput(output, { ending: '.yaml', inputs: [file], force: options.force });
    const { readings, context } = readReadingsFile(file, rule.unit, (mm) => showLength(mm, rule));
    const curve = withFaultContext(context, () => takeOff(readings, rule));
    const job = writeTakeOffJob(curve, options.name ?? readingsName, rule);
    const part = makeTakenPart(job);
    await writePicture(options, [file], part.name, () => composePicture(part, readings));
    writeFileAtomic(output, job);
    const warnings = suspectUnitWarnings(readings, rule);
    const json = () => ({ file: output, ...asJson(curve) });
    const text = () => asText(curve, rule, output);
    const jsonWarnings = [...part.warnings, ...warnings];
    printAnswer('take-off', { part, warnings, jsonWarnings, json, text }, options.json ?? false);
  },
});

/** The part of the job that will be written. Only its name comes from the user: a mistake in it is one of --name. */
function makeTakenPart(text: string): Part {
  try {
    return makePart(parseJob(text).job);
  } catch (error) {
    const ofName = error instanceof JobFaults && error.list.find(({ key }) => key === 'part');
    throw ofName ? new Fault(ofName.code, ofName.message, '--name') : error;
  }
}

function readRule({ units, graduation }: OptionValues<typeof OPTIONS>): Rule {
  if (units !== 'in' && units !== 'mm')
    throw new Fault('command.units', `--units: "${units}" is unknown. ${suggestUnit(units)}`);
  if (graduation === undefined) return defaultRule(units);
  return atOption('--graduation', () => parseGraduation(graduation, units));
}

/** A bad reading beyond the ends of the edge has no place on the picture. */
async function composePicture(part: Part, readings: readonly StationReading[]) {
  const { composeCheckPicture } = await import('../../export/pictures/check-picture.ts');
  const [edge] = part.edges;
  const [from, to] = [edgeStart(edge).x, edgeEnd(edge).x];
  const within = readings.filter(({ station }) => station >= from && station <= to);
  const checkOptions = { base: REFERENCE_LINE, tolerance: graduationMm(part.rule), beforeSanding: false };
  return composeCheckPicture(part, checkEdge(part, edge, within, checkOptions));
}

function asJson({ kinds, outliers, sigma }: TakeOff): object {
  const [best] = kinds;
  return {
    kind: best.kind,
    kinds: kinds.map(({ kind, curves, ends, rms, worst }) => ({
      kind,
      steps: curves.map((step) => step.kind),
      ...(ends && { ends }),
      rms,
      worst,
    })),
    outliers: outliers.map(({ at, off }) => ({ station: at.x, measured: at.y, off })),
    sigma,
    pins: settingPoints(best.curves).map(pointJson),
  };
}

function asText(curve: TakeOff, rule: Rule, output: string): string {
  return [
    `${output}: ${kindWords(curve.kinds[0])} lies best on the readings`,
    ...takeOffRemarks(curve, rule).map((line) => `  ${line}`),
    `Look at it:  fairlath show ${output}`,
  ].join('\n');
}
