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
  summary: 'write a starter job to edit',
  description: 'Write a starter job with comments: a bench apron. Edit it to make your own part.',
  usage: 'FILE [options]',
  argument: ['[FILE]', 'job file to write, such as my-part.yaml'],
  options: [
    option('--samples', `write the sample jobs and readings into the folder ${SAMPLES}, instead of FILE`),
    option('--json', 'answer with one JSON object for programs'),
  ],
  files: `Writes FILE, or the files of the folder ${SAMPLES}. It never replaces an existing file.`,
  examples: ['fairlath new my-part.yaml', 'fairlath new --samples'],
  run: ({ samples = false, json = false }, file) => {
    if (file !== undefined && samples) throw new Fault('new.what', 'Use FILE or --samples, not both.');
    if (file === undefined && !samples) {
      const wording = 'the name of the file is missing. Give a name, such as: fairlath new my-part.yaml';
      throw new Fault('new.what', wording);
    }
    const { body, text } = file === undefined ? writeSamples() : writeStarter(file);
    writeLine(json ? JSON.stringify({ command: 'new', ...body, warnings: [] }) : text);
  },
});

function writeStarter(file: string) {
  writeNewFile(file, STARTER_JOB);
  const text = `Wrote ${file}, a starter job. Edit it in a text editor. Then run:\n  fairlath show ${file}\n  fairlath print ${file}`;
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
  const text = `Wrote the sample jobs and readings into the folder ${SAMPLES}. To see one, run:\n  fairlath show ${join(SAMPLES, 'hall-bench-leg.yaml')}`;
  return { body: { files }, text };
}
