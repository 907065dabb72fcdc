import type { Command } from 'commander';
import type { Job } from '../job/job.ts';
import { parseJob } from '../job/parse-job.ts';
import { type QuickOptions, quickJob } from '../job/quick-job.ts';
import { makePart } from '../part/make-part.ts';
import type { Part } from '../part/part.ts';
import { Fault } from '../units/fault.ts';
import { showLength } from '../units/rule.ts';
import { readText } from './files.ts';
import { plainSpeaker, type Speaker, speakingOf } from './report.ts';

/** A job read and worked out, and how to speak of it. */
export interface Given {
  readonly part: Part;
  readonly speaker: Speaker;
  /** The job file's path; absent for a quick line. */
  readonly file?: string;
}

const QUICK = ['curve', 'chord', 'rise', 'nail', 'radius', 'ends', 'strip', 'units', 'graduation'] as const;

/** Adds JOB and, instead of it, the quick line to a command. */
export const takesJob = (command: Command): Command =>
  command
    .argument('[JOB]', 'the job file')
    .optionsGroup('Instead of a job file, one curve over its chord:')
    .option('--curve <kind>', 'arc, batten, bow, spline or ellipse')
    .option('--chord <length>', 'from end to end')
    .option('--rise <length>', 'of the apex, in the middle; with --nail, of the line at the nail')
    .option('--nail <station>', 'where along the chord the line passes at that rise')
    .option('--radius <length>', 'an arc by its radius, instead of its rise')
    .option('--ends <word>', 'batten: free or held; spline: natural or held; a pair: held,free')
    .option('--strip <taper>', 'a tapered batten, by its thickness at both ends: "1/4 to 1/8"')
    .option('--units <unit>', 'in (as a rule) or mm')
    .option('--graduation <length>', 'the finest mark on your rule: 1/32 in or 0.5 mm')
    .optionsGroup('Options:')
    .option('--json', 'one JSON object: mm, degrees, full precision');

type Typed = { readonly [option: string]: unknown };

/** The job that the command line names: a file or a quick line, worked out into its part. */
export function readGiven(file: string | undefined, options: Typed): Given {
  const quick = QUICK.filter((option) => options[option] !== undefined);
  if (file !== undefined) {
    if (quick.length > 0)
      throw new Fault(
        'command.two-jobs',
        `a job file and --${quick[0]} exclude each other. Give the file, or the curve by its options.`,
      );
    return readFile(file);
  }
  if (options.curve === undefined || options.chord === undefined)
    throw new Fault(
      'command.no-job',
      'no job given. Name a job file, or give a curve: --curve batten --chord 28 --rise 3/4.',
    );
  const job = speakingOf(plainSpeaker, () => quickJob(options as unknown as QuickOptions));
  return worked(job, { places: new Map(), length: (mm) => showLength(mm, job.rule) });
}

function readFile(file: string): Given {
  const text = readText(file);
  const { job, places } = speakingOf({ ...plainSpeaker, file }, () => parseJob(text));
  return worked(job, { file, places, length: (mm) => showLength(mm, job.rule) });
}

function worked(job: Job, speaker: Speaker): Given {
  const part = speakingOf(speaker, () => makePart(job));
  return { part, speaker, ...(speaker.file !== undefined && { file: speaker.file }) };
}

/** Warnings go to stderr and leave the exit code alone. */
export function warn(part: Part): void {
  for (const { message } of part.warnings) console.error(`warning: ${message}`);
}
