import { readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Command } from 'commander';
import { STARTER_JOB } from '../../job/starter-job.ts';
import { Fault } from '../../units/fault.ts';
import { plainCommand } from '../define-command.ts';
import { makeFolder, writeNewFile } from '../files/atomic-write.ts';
import { requireNewFile } from '../files/output-file.ts';
import { readText } from '../files/read-text.ts';
import { wrapError } from '../files/system-errors.ts';
import { option } from '../options/option-spec.ts';
import { writeLine } from '../output/stdout.ts';

const SAMPLES = 'samples';

/** The folder of the samples in the package, wherever in the package this runs. */
const packagedSamples = (): string =>
  join(dirname(createRequire(import.meta.url).resolve('fairlath/package.json')), SAMPLES);

/** `fairlath new FILE`: a commented starter job; `fairlath new --samples`: the sample jobs. */
export const makeCommand = (): Command =>
  plainCommand({
    name: 'new',
    summary: 'write a starter job to change into your own',
    description:
      'Write a commented starter job, a bench apron with every key that a job can hold, to change into your own.',
    usage: 'FILE [options]',
    argument: ['[FILE]', 'the job file to write, such as leg.yaml'],
    options: [
      option('--samples', `write the sample jobs and readings into the folder ${SAMPLES}, in place of FILE`),
      option('--json', 'answer with one JSON object for programs'),
    ],
    files: `Writes FILE, or the files of the folder ${SAMPLES}, and never over a file that exists.`,
    examples: ['fairlath new leg.yaml', 'fairlath new --samples'],
    run: ({ samples = false, json = false }, file) => {
      if ((file === undefined) !== samples)
        throw new Fault(
          'new.what',
          'new writes FILE or the samples. Use FILE or --samples, not both, such as fairlath new leg.yaml',
        );
      if (file === undefined) writeSamples(json);
      else writeStarter(file, json);
    },
  });

function writeStarter(file: string, json: boolean): void {
  writeNewFile(file, STARTER_JOB);
  writeLine(
    json
      ? JSON.stringify({ command: 'new', file, warnings: [] })
      : `${file} is a starter job. Change it in a text editor, then:\n  fairlath show ${file}\n  fairlath print ${file}`,
  );
}

function writeSamples(json: boolean): void {
  const packaged = packagedSamples();
  const files = sampleNames(packaged).map((name) => ({
    from: join(packaged, name),
    to: join(SAMPLES, name),
  }));
  for (const { to } of files) requireNewFile(to);
  makeFolder(SAMPLES);
  for (const { from, to } of files) {
    makeFolder(dirname(to));
    writeNewFile(to, readText(from));
  }
  writeLine(
    json
      ? JSON.stringify({ command: 'new', files: files.map(({ to }) => to), warnings: [] })
      : `The folder ${SAMPLES} holds the sample jobs and readings. Look at one:\n  fairlath show ${join(SAMPLES, 'hall-bench-leg.yaml')}`,
  );
}

const sampleNames = (folder: string): string[] =>
  wrapError(folder, () =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(?:yaml|csv)$/.test(name))
      .sort(),
  );
