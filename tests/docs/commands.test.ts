import { spawn } from 'node:child_process';
import { copyFileSync, cpSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import { fairlath, freshFolder, root } from '../cli/run.ts';
import { ALL_PAGES, asScript, blocksOf, type DocPage, pageNamed, withoutBlocks } from './pages.ts';

/** Run with their pictures by tests/docs/drawn.test.ts. */
const RUN_ELSEWHERE = ['docs/making-a-part.md', 'docs/a-metric-part.md'];
const pages = ALL_PAGES.filter(({ path }) => !RUN_ELSEWHERE.includes(path)).filter(
  (page) => blocksOf(page, 'bash').length > 0,
);

async function typed(script: string, cwd: string): Promise<{ code: number | null; err: string }> {
  const child = spawn('bash', ['-ec', script], { cwd, env: { ...process.env, XDG_CONFIG_HOME: cwd } });
  let err = '';
  child.stderr.setEncoding('utf8').on('data', (said: string) => {
    err += said;
  });
  child.stdout.resume();
  const code = await new Promise<number | null>((resolve) => child.on('close', resolve));
  return { code, err };
}

test.each(pages)('every command of $path runs as it stands, one after the other', async (page) => {
  const folder = freshFolder();
  // A page that writes the samples itself must find no folder of that name.
  const commands = blocksOf(page, 'bash').join('');
  if (!commands.includes('new --samples'))
    cpSync(join(root, 'samples'), join(folder, 'samples'), { recursive: true });
  if (!commands.includes('new my-'))
    copyFileSync(join(root, 'samples', 'hall-bench-leg.yaml'), join(folder, 'my-leg.yaml'));
  expect(commands).toMatch(/^fairlath /m);
  expect(await typed(asScript(commands), folder)).toEqual({ code: 0, err: '' });
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
