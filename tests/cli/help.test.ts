import { copyFileSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SAMPLES } from '../part/jobs.ts';
import { fairlath, freshFolder, root } from './run.ts';

const COMMANDS = [
  'new',
  'show',
  'print',
  'draw',
  'offsets',
  'batten',
  'stock',
  'saw',
  'card',
  'check',
  'take-off',
  'printer',
];
/** Those that stay until they are stopped; tests/page runs their examples. */
const SERVING = ['page'];
const SUBCOMMANDS = ['printer sheet', 'printer set', 'printer list'];

/** A folder as the examples suppose it: the samples in samples/. */
function folderWithSamples(): string {
  const folder = freshFolder();
  mkdirSync(join(folder, 'samples'));
  for (const name of [...SAMPLES, 'hall-bench-leg-measured.csv'])
    copyFileSync(join(root, 'samples', name), join(folder, 'samples', name));
  return folder;
}

/** The examples of a help text, as arguments. */
const examplesIn = (help: string): string[][] =>
  [...help.matchAll(/^ {2}\$ fairlath (.+)$/gm)].map(([, line]) =>
    [...line!.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, word]) => quoted ?? word!),
  );

describe('help', () => {
  test('the version is that of the package', () => {
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(fairlath(['--version']).out).toBe(`${version}\n`);
  });

  test('lists every command', () => {
    const { code, out } = fairlath(['--help']);
    expect(code).toBe(0);
    for (const command of [...COMMANDS, ...SERVING]) expect(out).toMatch(new RegExp(`^ {2}${command} `, 'm'));
  });

  test.each(['', ...COMMANDS, ...SUBCOMMANDS])(
    'every example of "fairlath %s --help" works as it stands',
    (command) => {
      const { code, out } = fairlath([...command.split(' ').filter(Boolean), '--help']);
      expect(code).toBe(0);
      const examples = examplesIn(out);
      expect(examples.length).toBeGreaterThan(0);
      const folder = folderWithSamples();
      for (const args of examples) {
        const answer = fairlath(args, folder);
        expect({ args, code: answer.code, err: answer.err }).toEqual({ args, code: 0, err: '' });
      }
    },
  );
});
