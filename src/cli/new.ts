import { Command } from 'commander';
import { STARTER_JOB } from '../job/starter.ts';
import { writeNew } from './files.ts';
import { endsWith } from './help.ts';
import { say } from './say.ts';

/** `fairlath new FILE`: a commented starter job. */
export const makeCommand = (): Command =>
  endsWith(
    new Command('new')
      .summary('write a starter job to change into your own')
      .description(
        'Write a commented starter job, a bench apron with every key that a job can hold, to change into your own.',
      )
      .usage('FILE [options]')
      .argument('<FILE>', 'the job file to write, such as leg.yaml')
      .option('--json', 'answer with one JSON object for programs'),
    {
      files: 'Writes FILE, and never over a file that exists.',
      examples: ['fairlath new leg.yaml'],
    },
  ).action((file: string, options: { json?: boolean }) => {
    writeNew(file, STARTER_JOB);
    say(
      options.json
        ? JSON.stringify({ command: 'new', file, warnings: [] })
        : `${file} is a starter job. Change it in a text editor, then:\n  fairlath show ${file}\n  fairlath print ${file}`,
    );
  });
