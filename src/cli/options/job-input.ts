import { basename, extname } from 'node:path';
import { fileNameFor } from '../../export/drawing/file-name.ts';
import { quickJob } from '../../job/quick/quick-job.ts';
import { makePart } from '../../part/make-part.ts';
import type { Part } from '../../part/part.ts';
import { readPart } from '../../part/read-part.ts';
import { withWrittenWarnings } from '../../shop/words/written-warnings.ts';
import { Fault } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import { showLength } from '../../units/rule.ts';
import { readText } from '../files/read-text.ts';
import { type FaultContext, plainContext, withFaultContext } from '../output/report-errors.ts';
import { nameOf, type OptionValues, optional } from './option-spec.ts';

export interface JobInput {
  readonly part: Part;
  readonly context: FaultContext;
  /** Absent for a quick line. */
  readonly file?: string;
}

export const QUICK_OPTIONS = optional({
  '--curve <kind>': 'kind of curve: arc, batten, bow, spline or ellipse',
  '--chord <length>': 'straight distance between the ends of the curve',
  '--rise <length>': 'height above the chord, at mid-chord or, with --nail, at the nail',
  '--nail <station>': 'distance along the chord to the nail (arc, batten, spline; default: no nail)',
  '--radius <length>': 'radius of the arc, instead of --rise',
  '--ends <word>':
    'kind of ends. Batten: free (rests on a nail) or held (clamped in line with the chord). Spline: natural or held. ' +
    'For different ends give two, such as held,free (default: free, or natural)',
  '--strip <taper>':
    'taper of the batten: the thickness at both ends, such as "1/4 to 1/8" (default: no taper)',
  '--units <unit>': 'unit of numbers without a unit, and of the results: in or mm (default: in)',
  '--graduation <length>': 'finest mark on your rule (default: 1/32" or 0.5 mm)',
});

export type QuickValues = OptionValues<typeof QUICK_OPTIONS>;

/** Reads a job file or a quick line. A command may allow some options of a quick line beside a file. */
export function readJobInput(
  file: string | undefined,
  options: QuickValues,
  alsoBesideFile: readonly (keyof QuickValues)[] = [],
): JobInput {
  if (file !== undefined) {
    const names = QUICK_OPTIONS.map(nameOf).filter((name) => !alsoBesideFile.includes(name));
    const stray = names.find((name) => options[name] !== undefined);
    if (stray !== undefined)
      throw new Fault(
        'command.two-jobs',
        `${quoted(file)} is a job file, and --${stray} describes a curve. Use the file or the curve, not both.`,
      );
    return readJobFile(file);
  }
  const { curve, chord } = options;
  if (curve === undefined || chord === undefined) {
    const wording =
      'no job given. Give a job file or describe a curve, such as --curve batten --chord 28 --rise 3/4.';
    throw new Fault('command.no-job', wording);
  }
  const job = withFaultContext(plainContext, () => quickJob({ ...options, curve, chord }));
  const context = { length: (mm: number) => showLength(mm, job.rule) };
  return { part: withFaultContext(context, () => makePart(job)), context };
}

function readJobFile(file: string): JobInput {
  const text = readText(file);
  const { part: read, places } = withFaultContext({ ...plainContext, file }, () => readPart(text));
  const context = { file, length: (mm: number) => showLength(mm, read.rule) };
  const part = withFaultContext(context, () => withWrittenWarnings(read, places));
  return { part, context, file };
}

export const defaultOutput = ({ file, part }: JobInput, ending: string): string =>
  file === undefined ? fileNameFor(part.name, ending) : `${basename(file, extname(file))}${ending}`;
