import { basename, extname, resolve } from 'node:path';
import { Command } from 'commander';
import { checkEdge } from '../../check/check-edge.ts';
import { type TakeOff, takeOff } from '../../check/fit/take-off.ts';
import { settingPoints, takeOffRemarks, writeTakeOffJob } from '../../check/fit/take-off-job.ts';
import type { StationReading } from '../../check/readings/read-readings.ts';
import { suspectUnitWarnings } from '../../check/suspect-unit.ts';
import { fileNameFor } from '../../export/drawing/file-name.ts';
import { JobFaults } from '../../job/job-faults.ts';
import { parseJob } from '../../job/parse/parse-job.ts';
import { suggestUnit } from '../../job/parse/unit-word.ts';
import { edgeEnd, edgeStart } from '../../part/edge.ts';
import { makePart } from '../../part/make-part.ts';
import { REFERENCE_LINE } from '../../part/offsets.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';
import { graduationMm } from '../../units/graduation.ts';
import { defaultRule, parseGraduation, type Rule, showLength } from '../../units/rule.ts';
import { requireWritable, writeFileAtomic } from '../files/atomic-files.ts';
import { writePicture } from '../files/picture-file.ts';
import { readReadingsFile } from '../files/readings-file.ts';
import { addHelpSections, LENGTH_SYNTAX } from '../help.ts';
import { printWarnings } from '../options/job-input.ts';
import { atOption } from '../options/option-values.ts';
import { jsonOption, pictureOption } from '../options/shared-options.ts';
import { pointJson, printJson } from '../output/json-output.ts';
import { withFaultContext } from '../output/report-errors.ts';
import { writeLine } from '../output/stdout.ts';

interface TakeOffOptions {
  readonly output?: string;
  readonly units: string;
  readonly graduation?: string;
  readonly name?: string;
  readonly picture?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** `fairlath take-off FILE.csv -o JOB.yaml`: a curve off an existing part. */
export const makeCommand = (): Command =>
  addHelpSections(
    new Command('take-off')
      .summary('a fair curve off an existing part, as a job')
      .description(
        'Take the curve off an existing part: lay a fair curve through readings of it, name the bad readings, and ' +
          'write the curve as a job.',
      )
      .usage('FILE.csv [options]')
      .argument(
        '<FILE.csv>',
        'your readings, a line each: station, comma, offset, as you read them off the rule',
      )
      .option(
        '-o, --output <JOB.yaml>',
        'the job to write (default: the name of the readings with .yaml, in the current folder)',
      )
      .option('--units <unit>', 'of bare numbers, and of the job: in or mm (default: in)', 'in')
      .option('--graduation <length>', 'the finest mark on your rule (default: 1/32 in or 0.5 mm)')
      .option('--name <part>', 'what to call the part (default: the name of the readings)')
      .addOption(pictureOption('also draw the readings on the curve, with what they are off it, enlarged'))
      .option('--force', 'replace the job even where it exists, or a picture that fairlath did not draw')
      .addOption(jsonOption()),
    {
      notes: [
        'The curve is as fair as the error of reading a rule allows. A line, an arc, a bow, a batten over one nail and ' +
          'a spline are each laid on the readings; the one that fits best, with the fewest nails, goes into the job.',
        LENGTH_SYNTAX,
      ],
      files:
        'Reads FILE.csv. Writes the job, and over one that exists only with --force; and the SVG that --picture names.',
      examples: [
        'fairlath take-off samples/hall-bench-leg-measured.csv -o leg.yaml',
        'fairlath take-off samples/hall-bench-leg-measured.csv -o leg.yaml --force --picture leg.svg',
        'fairlath take-off samples/hall-bench-leg-measured.csv -o leg-64.yaml --graduation 1/64',
      ],
    },
  ).action(async (file: string, options: TakeOffOptions) => {
    const rule = readRule(options);
    const output = options.output ?? fileNameFor(basename(file, extname(file)), '.yaml');
    if (options.picture !== undefined && resolve(options.picture) === resolve(output))
      throw new Fault(
        'command.one-file',
        `--picture and -o both name ${output}. Give each a file of its own.`,
      );
    requireWritable(output, file, () => false, options.force ?? false);
    const { readings, context } = readReadingsFile(file, rule.unit, (mm) => showLength(mm, rule));
    const taken = withFaultContext(context, () => takeOff(readings, rule));
    const text = writeTakeOffJob(taken, options.name ?? basename(file, extname(file)), rule);
    const part = makeTakenPart(text);
    if (options.picture !== undefined)
      await writeTakeOffPicture(part, readings, options.picture, file, options.force);
    writeFileAtomic(output, text);
    const doubts = suspectUnitWarnings(readings, rule);
    printWarnings({ ...part, warnings: doubts });
    if (options.json)
      printJson('take-off', part, { file: output, ...asJson(taken) }, [...part.warnings, ...doubts]);
    else writeLine(asText(taken, rule, output));
  });

/** The part of the job that is to be written; of what stands in it only the name is the user's own. */
function makeTakenPart(text: string): Part {
  try {
    return makePart(parseJob(text).job);
  } catch (error) {
    const ofName = error instanceof JobFaults && error.list.find(({ key }) => key === 'part');
    throw ofName ? new Fault(ofName.code, ofName.message, '--name') : error;
  }
}

function readRule({ units, graduation }: TakeOffOptions): Rule {
  if (units !== 'in' && units !== 'mm')
    throw new Fault('command.units', `--units: "${units}" is unknown. ${suggestUnit(units)}`);
  if (graduation === undefined) return defaultRule(units);
  return atOption('--graduation', () => parseGraduation(graduation, units));
}

/** The readings as a check of the part against its own curve; a bad one beyond its ends has no place there. */
function writeTakeOffPicture(
  part: Part,
  readings: readonly StationReading[],
  output: string,
  input: string,
  force: boolean | undefined,
): Promise<void> {
  return writePicture({ output, inputs: [input], force }, part.name, async () => {
    const { composeCheckPicture } = await import('../../export/pictures/check-picture.ts');
    const edge = part.edges[0]!;
    const [from, to] = [edgeStart(edge).x, edgeEnd(edge).x];
    const within = readings.filter(({ station }) => station >= from && station <= to);
    const how = { base: REFERENCE_LINE, tolerance: graduationMm(part.rule), beforeSanding: false };
    return composeCheckPicture(part, checkEdge(part, edge, within, how));
  });
}

function asJson({ kinds, outliers, sigma }: TakeOff): object {
  const [best] = kinds;
  return {
    kind: best.kind,
    kinds: kinds.map(({ kind, rms, worst }) => ({ kind, rms, worst })),
    outliers: outliers.map(({ at, off }) => ({ station: at.x, measured: at.y, off })),
    sigma,
    pins: settingPoints(best.curve).map(pointJson),
  };
}

function asText(taken: TakeOff, rule: Rule, output: string): string {
  const [{ kind }] = taken.kinds;
  return [
    `${output}: ${kind === 'arc' ? 'an' : 'a'} ${kind} lies best on the readings`,
    ...takeOffRemarks(taken, rule).map((line) => `  ${line}`),
    `Look at it:  fairlath show ${output}`,
  ].join('\n');
}
