import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fairlath, freshFolder, LEG, root } from './run.ts';
import { expectWords } from './words.ts';

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

/** A folder as the help supposes it: the samples are in samples/. */
function folderWithSamples(): string {
  const folder = freshFolder();
  expect(fairlath(['new', '--samples'], folder).code).toBe(0);
  return folder;
}

const helps = new Map<string, ReturnType<typeof fairlath>>();

/** The help of a command, asked for once. */
function helpOf(command: string): ReturnType<typeof fairlath> {
  const help = helps.get(command) ?? fairlath([...command.split(' ').filter(Boolean), '--help']);
  helps.set(command, help);
  return help;
}

/** The examples of a help text, as arguments; a long one goes on after a backslash. */
const examplesIn = (help: string): string[][] =>
  [...help.replace(/ \\\n\s+/g, ' ').matchAll(/^ {2}\$ fairlath (.+)$/gm)].map(([, line]) =>
    [...line!.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, word]) => quoted ?? word!),
  );

describe('help', () => {
  test('the version is that of the package', () => {
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(fairlath(['--version']).out).toBe(`${version}\n`);
  });

  test('the words of the program itself and of the page are the reviewed ones', () =>
    expectWords('fairlath', [['--help'], ['shwo', LEG], ['page', '--help'], ['page', '--port', '80']]));

  test('names the quick start first of all documents, and the document exists', () => {
    const [first = ''] = helpOf('').out.match(/docs\/[\w-]+\.md/g) ?? [];
    expect(first).toBe('docs/quick-start.md');
    expect(readFileSync(join(root, first), 'utf8')).toMatch(/^# Quick start\n/);
  });

  test('lists every command', () => {
    const { code, out } = helpOf('');
    expect(code).toBe(0);
    for (const command of [...COMMANDS, ...SERVING]) expect(out).toMatch(new RegExp(`^ {2}${command} `, 'm'));
  });

  test.each(['', ...COMMANDS, ...SERVING, ...SUBCOMMANDS])(
    '"fairlath %s --help" reads as a page',
    (command) => {
      const { out, err } = helpOf(command);
      expect(err).toBe('');
      // Where nothing says how wide the window is, help is set for one of 80 columns.
      expect(out.split('\n').filter((line) => line.length > 80)).toEqual([]);
      // The text states the default in the words of a maker, not as the value in the program.
      expect(out).not.toMatch(/default: ["[{]/);
      expect(out).toMatch(new RegExp(`^Usage: fairlath ${command}`));
      expect(out).toMatch(/^Exit codes:\n {2}0 done, 2 .+, 1 .+$/m);
      expect(out).toMatch(/^Files:$/m);
    },
  );

  test('every command says the same of the options that it shares with others', () => {
    const shared = /^ {2}--(?:force|curve|chord|rise|nail|strip|units|from|every)\b.+\n(?: {10,}.+\n)*/gm;
    const words = COMMANDS.filter((command) => command !== 'take-off').flatMap((command) =>
      [...helpOf(command).out.matchAll(shared)].map(([text]) => text.replace(/\s+/g, ' ')),
    );
    expect(words.length).toBeGreaterThan(50);
    expect(new Set(words).size).toBe(9);
  });

  test.each(['', ...COMMANDS, ...SUBCOMMANDS])(
    'every example of "fairlath %s --help" works as it stands',
    (command) => {
      const { code, out } = helpOf(command);
      expect(code).toBe(0);
      const examples = examplesIn(out);
      expect(examples.length).toBeGreaterThan(0);
      const takesSamples = out.includes(' samples/');
      expect(out.includes('fairlath new --samples')).toBe(takesSamples || command === 'new');
      const folder = takesSamples ? folderWithSamples() : freshFolder();
      for (const args of examples) {
        const answer = fairlath(args, folder);
        expect({ args, code: answer.code, err: answer.err }).toEqual({ args, code: 0, err: '' });
      }
    },
  );
});
