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
  '--curve <kind>': 'arc, batten, bow, spline or ellipse',
  '--chord <length>': 'straight distance between the curve’s ends',
  '--rise <length>':
    'height over the chord: of the apex, in the middle; with --nail, of the line at the nail',
  '--nail <station>': 'where along the chord the line has that rise (arc, batten, spline)',
  '--radius <length>': 'of an arc, instead of --rise',
  '--ends <word>':
    'batten: free, sprung over a nail at its end, or held, in line with the chord; spline: natural or held; a pair ' +
    'such as held,free for one each (default: free, or natural)',
  '--strip <taper>': 'a batten planed to a taper, its thickness at both ends: "1/4 to 1/8" (default: even)',
  '--units <unit>': 'of bare numbers, and of the answer: in or mm (default: in)',
  '--graduation <length>': 'the finest mark on your rule (default: 1/32 in or 0.5 mm)',
});

export type QuickValues = OptionValues<typeof QUICK_OPTIONS>;

/** Reads a job file or a quick line. Some options of a quick line may be given with a file too. */
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
        `${quoted(file)} is a job file, and --${stray} gives a curve. Give the file or the curve, not both.`,
      );
    return readJobFile(file);
  }
  const { curve, chord } = options;
  if (curve === undefined || chord === undefined) {
    const wording = 'no job given. Name a job file, or give a curve: --curve batten --chord 28 --rise 3/4.';
    throw new Fault('command.no-job', wording);
  }
  const job = withFaultContext(plainContext, () => quickJob({ ...options, curve, chord }));
  const context = { length: (mm: number) => showLength(mm, job.rule) };
  return { part: withFaultContext(context, () => makePart(job)), context };
}

function readJobFile(file: string): JobInput {
  const text = readText(file);
  const { part, places } = withFaultContext({ ...plainContext, file }, () => readPart(text));
  const context = { file, length: (mm: number) => showLength(mm, part.rule) };
  return { part: withWrittenWarnings(part, places), context, file };
}

export const defaultOutput = ({ file, part }: JobInput, ending: string): string =>
  file === undefined ? fileNameFor(part.name, ending) : `${basename(file, extname(file))}${ending}`;
