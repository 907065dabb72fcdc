import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { freshFolder, root } from '../cli/run.ts';

const docs = join(root, 'docs');
const guide = readFileSync(join(docs, 'making-a-part.md'), 'utf8');
const blocks = [...guide.matchAll(/^```bash\n([\s\S]*?)^```/gm)].map(([, block]) => block!);
const pictures = readdirSync(join(docs, 'pictures'));
/** What a reader waits for on a slow line. */
const ALL_PICTURES_BYTES = 500_000;

/** Fifteen programs, one after the other, on a busy machine. */
const ALL_COMMANDS_MS = 180_000;

/** A block as a reader types it, ended by its first failure. */
function typed(block: string, cwd: string): { code: number | null; err: string } {
  const cli = join(root, 'bin', 'fairlath.js');
  const { status, stderr } = spawnSync(
    'bash',
    ['-ec', `fairlath() { "${process.execPath}" "${cli}" "$@"; }\n${block}`],
    { cwd, env: { ...process.env, XDG_CONFIG_HOME: cwd }, encoding: 'utf8' },
  );
  return { code: status, err: stderr };
}

describe('making a part', () => {
  const folder = freshFolder();
  let answers: { block: string; code: number | null; err: string }[] = [];

  beforeAll(() => {
    cpSync(join(root, 'samples'), join(folder, 'samples'), { recursive: true });
    answers = blocks.map((block) => ({ block, ...typed(block, folder) }));
  }, ALL_COMMANDS_MS);

  test('every command runs as it stands, one after the other', () => {
    expect(blocks.length).toBeGreaterThan(8);
    expect(answers).toEqual(blocks.map((block) => ({ block, code: 0, err: '' })));
  });

  test.each(pictures.filter((name) => name.endsWith('.svg')))(
    '%s is what its command draws (npm run docs)',
    (name) => {
      expect(readFileSync(join(docs, 'pictures', name), 'utf8')).toBe(
        readFileSync(join(folder, name), 'utf8'),
      );
    },
  );

  test('every picture shown is there, every picture there is shown, and all are small', () => {
    const shown = [...guide.matchAll(/\]\(pictures\/([^)]+)\)/g)].map(([, name]) => name!);
    expect(shown.toSorted()).toEqual(pictures.toSorted());
    const bytes = pictures.reduce((sum, name) => sum + statSync(join(docs, 'pictures', name)).size, 0);
    expect(bytes).toBeLessThan(ALL_PICTURES_BYTES);
  });

  test('every step of the work has a command and a picture', () => {
    const steps = guide.split(/^## /m).filter((section) => /^\d+\. /.test(section));
    expect(steps.length).toBe(12);
    for (const step of steps) {
      const [title] = step.split('\n');
      expect(step, title).toMatch(/^```bash$/m);
      expect(step, title).toMatch(/^!\[[^\]]+\]\(pictures\//m);
    }
  });

  test('every link to another file of the project leads somewhere', () => {
    for (const name of readdirSync(docs).filter((file) => file.endsWith('.md')))
      for (const [, to] of readFileSync(join(docs, name), 'utf8').matchAll(/\]\((?!https?:)([^)#]+)[^)]*\)/g))
        expect(existsSync(join(docs, to!)), `${name}: ${to}`).toBe(true);
  });
});
