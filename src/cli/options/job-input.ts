import type { Command } from 'commander';
import type { Job } from '../../job/job.ts';
import { parseJob } from '../../job/parse/parse-job.ts';
import { type QuickOptions, quickJob } from '../../job/quick/quick-job.ts';
import { makePart } from '../../part/make-part.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import { showLength } from '../../units/rule.ts';
import { readText } from '../files/atomic-files.ts';
import { addHelpSections, type HelpSections, LENGTH_SYNTAX } from '../help.ts';
import { type FaultContext, plainContext, withFaultContext } from '../output/report-errors.ts';
import { jsonOption } from './shared-options.ts';

/** A job read and worked out, and how to speak of it. */
export interface JobInput {
  readonly part: Part;
  readonly context: FaultContext;
  /** The job file's path; absent for a quick line. */
  readonly file?: string;
}

const QUICK_OPTIONS = [
  'curve',
  'chord',
  'rise',
  'nail',
  'radius',
  'ends',
  'strip',
  'units',
  'graduation',
] as const;

/** What a command that takes a job must be given besides it, one of these, for the lines of its usage. */
export interface JobCommandHelp extends HelpSections {
  readonly needs?: readonly [string, ...string[]];
}

/** "show JOB [options]", and what may stand in place of JOB. */
function jobUsage(name: string, needs: readonly string[] | undefined): string {
  const quick = '--curve KIND --chord LENGTH --rise LENGTH';
  const lines = needs
    ? [...needs.map((one) => `JOB ${one} [options]`), `${quick} ${needs[0]}`]
    : ['JOB [options]', `${quick} [options]`];
  return lines.join(`\n   or: fairlath ${name} `);
}

/** Adds JOB and, instead of it, the quick line to a command that has its own options, and ends its help. */
export const addJobArgument = (command: Command, { needs, ...ending }: JobCommandHelp): Command =>
  addHelpSections(
    command
      .usage(jobUsage(command.name(), needs))
      .argument('[JOB]', 'the job file; leave it out to give one curve by the options further down')
      .addOption(jsonOption())
      .optionsGroup('Instead of JOB, one curve over its chord:')
      .option('--curve <kind>', 'arc, batten, bow, spline or ellipse')
      .option('--chord <length>', 'straight distance between the curve’s ends')
      .option(
        '--rise <length>',
        'height over the chord: of the apex, in the middle; with --nail, of the line at the nail',
      )
      .option('--nail <station>', 'where along the chord the line has that rise (arc, batten, spline)')
      .option('--radius <length>', 'of an arc, instead of --rise')
      .option(
        '--ends <word>',
        'batten: free, sprung over a nail at its end, or held, in line with the chord; spline: natural or held; a pair ' +
          'such as held,free for one each (default: free, or natural)',
      )
      .option(
        '--strip <taper>',
        'a batten planed to a taper, its thickness at both ends: "1/4 to 1/8" (default: even)',
      )
      .option('--units <unit>', 'of bare numbers, and of the answer: in or mm (default: in)')
      .option('--graduation <length>', 'the finest mark on your rule (default: 1/32 in or 0.5 mm)')
      .optionsGroup('Options:'),
    { ...ending, notes: [...(ending.notes ?? []), JOB_LENGTH_SYNTAX] },
  );

const JOB_LENGTH_SYNTAX = `${LENGTH_SYNTAX} A bare number is in the job’s unit.`;

type OptionValues = { readonly [option: string]: unknown };

/** The job that the command line names: a file or a quick line, worked out into its part. */
export function readJobInput(file: string | undefined, options: OptionValues): JobInput {
  const quick = QUICK_OPTIONS.filter((option) => options[option] !== undefined);
  if (file !== undefined) {
    if (quick.length > 0) throw twoJobsFault(file, quick);
    return readJobFile(file);
  }
  if (options.curve === undefined || options.chord === undefined)
    throw new Fault(
      'command.no-job',
      'no job given. Name a job file, or give a curve: --curve batten --chord 28 --rise 3/4.',
    );
  const job = withFaultContext(plainContext, () => quickJob(options as unknown as QuickOptions));
  return makeJobInput(job, { ...plainContext, length: (mm) => showLength(mm, job.rule) });
}

/** What stands by itself is a job file, be it the second half of a length that was typed without quotes. */
function twoJobsFault(file: string, quick: readonly string[]): Fault {
  const both = `${quoted(file)} stands for a job file, and a job file and --${quick[0]} exclude each other.`;
  const cure =
    'Give the file, or the curve by its options; put a length with a space in quotes: --chord "28 3/4".';
  return new Fault('command.two-jobs', `${both} ${cure}`);
}

function readJobFile(file: string): JobInput {
  const text = readText(file);
  const { job, places: positions } = withFaultContext({ ...plainContext, file }, () => parseJob(text));
  return makeJobInput(job, { file, positions, length: (mm) => showLength(mm, job.rule) });
}

function makeJobInput(job: Job, context: FaultContext): JobInput {
  const part = withFaultContext(context, () => makePart(job));
  return { part, context, ...(context.file !== undefined && { file: context.file }) };
}

/** Warnings go to stderr and leave the exit code alone. */
export function printWarnings(part: Part): void {
  for (const { message } of part.warnings) console.error(`warning: ${message}`);
}
