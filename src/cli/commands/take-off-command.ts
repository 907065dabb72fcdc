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
    'job to write (default: the name of the readings with .yaml, in the current folder)',
  ),
  optionWithDefault(
    '--units <unit>',
    'unit of numbers without a unit, and of the job: in or mm (default: in)',
    'in',
  ),
  option('--graduation <length>', 'finest mark on your rule (default: 1/32" or 0.5 mm)'),
  option('--name <part>', 'name of the part (default: the name of the readings)'),
  pictureOption('also draw the readings on the curve, with their errors enlarged'),
  option('--force', 'replace an existing job, or a picture that fairlath did not draw'),
  jsonOption,
] as const;

export const makeCommand = plainCommand({
  name: 'take-off',
  summary: 'a fair curve from readings of an existing part',
  description:
    'Take the curve off an existing part: fit a fair curve to your readings, and write it as a job. Also name readings ' +
    'that are probably wrong.',
  usage: 'FILE.csv [options]',
  argument: ['<FILE.csv>', 'file of your readings, one on each line: station, comma, offset'],
  options: OPTIONS,
  notes: [
    'The curve is as smooth as the reading error allows. fairlath fits a line, an arc, a bow, half an ellipse and a ' +
      'spline. It fits a batten over one nail, with free or held ends. It also fits arcs and held battens beside ' +
      'straight parts. The kind that fits best with the fewest nails goes into the job.',
    'At a shoulder the offset jumps. Write the readings of each side into a separate file.',
    LENGTH_SYNTAX,
  ],
  files:
    'Reads FILE.csv. Writes the job and the SVG that --picture names. It replaces an existing job only with --force.',
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
      const wording = `--picture and -o both name ${output}. Give them different names.`;
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

/** The part of the job to write. Only its name comes from the user, so a mistake there belongs to --name. */
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
    throw new Fault('command.units', `--units: "${units}" is not a unit for a job. ${suggestUnit(units)}`);
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
    outliers: outliers.map(({ at, off: deviation }) => ({ station: at.x, measured: at.y, deviation })),
    sigma,
    pins: settingPoints(best.curves).map(pointJson),
  };
}

function asText(curve: TakeOff, rule: Rule, output: string): string {
  return [
    `Wrote ${output}: ${kindWords(curve.kinds[0])} fits the readings best.`,
    ...takeOffRemarks(curve, rule).map((line) => `  ${line}`),
    `To see the curve, run:  fairlath show ${output}`,
  ].join('\n');
}
