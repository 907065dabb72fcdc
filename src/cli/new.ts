import { Command } from 'commander';
import { STARTER_JOB } from '../job/starter.ts';
import { writeNew } from './files.ts';

/** `fairlath new FILE`: a commented starter job. */
export const newCommand = (): Command =>
  new Command('new')
    .description('write a commented starter job to change into your own; never overwrites')
    .argument('<FILE>', 'the job file to write')
    .option('--json', 'one JSON object')
    .addHelpText('after', '\nExamples:\n  $ fairlath new leg.yaml\n')
    .action((file: string, options: { json?: boolean }) => {
      writeNew(file, STARTER_JOB);
      console.log(
        options.json
          ? JSON.stringify({ command: 'new', file, warnings: [] })
          : `${file} is a starter job. Change it in a text editor, then:\n  fairlath show ${file}\n  fairlath print ${file}`,
      );
    });
