import { copyFileSync, cpSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import { fairlath, freshFolder, root } from '../cli/run.ts';
import { ALL_PAGES, blocksOf, type DocPage, pageNamed, withoutBlocks } from './pages.ts';

/** Run with their pictures by tests/docs/drawn.test.ts. */
const RUN_ELSEWHERE = ['docs/making-a-part.md', 'docs/a-metric-part.md'];
const pages = ALL_PAGES.filter(({ path }) => !RUN_ELSEWHERE.includes(path)).filter(
  (page) => blocksOf(page, 'bash').length > 0,
);

/** The words of each command as the shell gives them to the program: no comment, no quotes, no file to write to. */
const commandsOf = (page: DocPage): string[][] =>
  blocksOf(page, 'bash')
    .join('')
    .replaceAll('\\\n', ' ')
    .split('\n')
    .map((line) => line.replace(/ +(?:#|>) .*$/, ''))
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, word]) => quoted ?? word ?? ''));

test.each(pages)('every command of $path runs as it stands, one after the other', (page) => {
  const folder = freshFolder();
  const commands = commandsOf(page);
  // A page that writes the samples or a job itself must find none of that name.
  const writes = (name: string): boolean =>
    commands.some(([, first, second]) => first === 'new' && second === name);
  if (!writes('--samples')) cpSync(join(root, 'samples'), join(folder, 'samples'), { recursive: true });
  copyFileSync(join(root, 'samples', 'hall-bench-leg.yaml'), join(folder, 'my-leg.yaml'));
  for (const [program, ...args] of commands) {
    expect(program, args.join(' ')).toBe('fairlath');
    const { code, err } = fairlath(args, folder, folder);
    expect({ args, code, err }).toEqual({ args, code: 0, err: '' });
  }
});

/** Every command line in a block or in a sentence, cut where another word of the shell begins. */
function commandLines(page: DocPage): string[] {
  const inBlocks = [...page.text.matchAll(/^```[\s\S]*?^```/gm)].join('\n').replaceAll('\\\n', ' ');
  const lines = [
    ...inBlocks.matchAll(/^fairlath (.+)$/gm),
    ...withoutBlocks(page).matchAll(/`fairlath ([^`]+)`/g),
  ];
  return lines.flatMap(([, line]) => line?.split(/[|#>]/)[0] ?? []);
}

test.each(ALL_PAGES)('every command and option that $path names exists', (page) => {
  const helps = new Map<string, string>();
  const helpOf = (words: readonly string[]): string => {
    const key = words.join(' ');
    const help = helps.get(key) ?? fairlath([...words, '--help']).out;
    helps.set(key, help);
    return help;
  };
  for (const line of commandLines(page)) {
    const [command = '', second = ''] = line.trim().split(/\s+/);
    if (command.startsWith('-') || command === 'COMMAND') continue;
    expect(Object.keys(COMMANDS), line).toContain(command);
    const help = helpOf(command === 'printer' && /^[a-z]+$/.test(second) ? [command, second] : [command]);
    for (const [option] of line.matchAll(/(?<=\s)--[a-z-]+/g))
      expect(help, line).toMatch(new RegExp(`${option}\\b`));
  }
});

test('the pages that draw pictures are run with them', () => {
  for (const path of RUN_ELSEWHERE)
    expect(blocksOf(pageNamed(path.slice('docs/'.length)), 'bash').length).toBeGreaterThan(4);
});
