import { readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
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

export const makeCommand = plainCommand({
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
    const { body, text } = file === undefined ? writeSamples() : writeStarter(file);
    writeLine(json ? JSON.stringify({ command: 'new', ...body, warnings: [] }) : text);
  },
});

function writeStarter(file: string) {
  writeNewFile(file, STARTER_JOB);
  const text = `${file} is a starter job. Change it in a text editor, then:\n  fairlath show ${file}\n  fairlath print ${file}`;
  return { body: { file }, text };
}

function writeSamples() {
  const packaged = join(dirname(createRequire(import.meta.url).resolve('fairlath/package.json')), SAMPLES);
  const names = wrapError(packaged, () => readdirSync(packaged, { recursive: true, encoding: 'utf8' }))
    .filter((name) => /\.(?:yaml|csv)$/.test(name))
    .sort();
  const files = names.map((name) => join(SAMPLES, name));
  for (const file of files) requireNewFile(file);
  makeFolder(SAMPLES);
  for (const name of names) {
    const file = join(SAMPLES, name);
    makeFolder(dirname(file));
    writeNewFile(file, readText(join(packaged, name)));
  }
  const text = `The folder ${SAMPLES} holds the sample jobs and readings. Look at one:\n  fairlath show ${join(SAMPLES, 'hall-bench-leg.yaml')}`;
  return { body: { files }, text };
}
