import { spawnSync } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Answer, freshFolder, root } from './run.ts';

const LEG = join(root, 'samples/hall-bench-leg.yaml');

function node(words: readonly string[]): Answer {
  const { status, stdout, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
  return { code: status, out: stdout, err: stderr };
}

/** A program that runs the command line, then tells which scripts Node had to compile anew. */
const telling = join(freshFolder(), 'telling.cjs');
writeFileSync(
  telling,
  `const { start, scripts } = require(${JSON.stringify(join(root, 'bin/fairlath.js'))});
   start();
   process.on('exit', () => {
     for (const [file, script] of scripts) console.error(file.split(/[\\\\/]/).at(-1), script.cachedDataRejected);
   });`,
);

describe('what Node compiled at the build', () => {
  test('is taken by a command', () => {
    expect(node([telling, 'show', LEG]).err).toBe('show.cjs false\n');
  });

  test('is taken by the PDF library', () => {
    const { err } = node([telling, 'print', LEG, '-o', join(freshFolder(), 'leg.pdf')]);
    expect(err).toBe('print.cjs false\npdfkit.cjs false\n');
  });

  test('is taken by the list of commands', () => {
    expect(node([telling, '--help']).err).toBe('all.cjs false\n');
  });

  test('is there for every command (RUNS of tools/keep-compiled.js)', () => {
    const files = readdirSync(join(root, 'dist/cli'), { recursive: true, encoding: 'utf8' });
    const scripts = files.filter((file) => file.endsWith('.cjs'));
    expect(scripts.length).toBeGreaterThan(10);
    expect(scripts.filter((file) => !files.includes(`${file}.compiled`))).toEqual([]);
  });
});

describe('without what Node compiled at the build', () => {
  /** A command line of its own, to spoil. */
  const own = freshFolder();
  const bin = join(own, 'bin/fairlath.js');
  const kept = join(own, 'dist/cli/show.cjs.compiled');
  const whole = readFileSync(join(root, 'dist/cli/show.cjs.compiled'));
  const answers = (flags: readonly string[] = []) => [
    node([...flags, bin, 'show', LEG]),
    node([...flags, bin, 'show', 'no-such-job.yaml']),
  ];
  let right: Answer[];

  beforeAll(() => {
    cpSync(join(root, 'bin'), join(own, 'bin'), { recursive: true });
    cpSync(join(root, 'dist/cli'), join(own, 'dist/cli'), { recursive: true });
    right = answers();
  });

  /** The second word of what is kept names the Node that made it. */
  function byAnotherNode(): Buffer {
    const bytes = Buffer.from(whole);
    bytes.writeInt32LE(bytes.readInt32LE(4) + 1, 4);
    return bytes;
  }

  /** A block of a disk as it may be found after a fault. */
  function withoutOneBlock(): Buffer {
    const middle = 4096 * Math.floor(whole.length / 8192);
    return Buffer.from(whole).fill(0xff, middle, middle + 4096);
  }

  test('the answers are there to compare with', () => {
    expect(right.map(({ code }) => code)).toEqual([0, 2]);
    expect(right[0]!.out).toContain('Hall bench leg');
  });

  test.each([
    ['made by another Node', byAnotherNode()],
    ['cut short', whole.subarray(0, whole.length / 2)],
    ['empty', Buffer.alloc(0)],
    ['something else', Buffer.from('not what it should be'.repeat(1000))],
    ['damaged in the middle', withoutOneBlock()],
  ])('answers are the same: it is %s', (_, bytes) => {
    writeFileSync(kept, bytes);
    expect(answers()).toEqual(right);
  });

  test('answers are the same: it is missing', () => {
    rmSync(kept);
    expect(answers()).toEqual(right);
  });

  test('answers are the same: Node runs with settings of its own', () => {
    writeFileSync(kept, whole);
    expect(answers(['--no-opt'])).toEqual(right);
  });
});

test('npm start prints the sample leg into out/ of the folder one stands in, or the job that is named', () => {
  const folder = freshFolder();
  const npmStart = (...words: string[]) =>
    spawnSync(process.execPath, [join(root, 'tools/start.js'), ...words], {
      cwd: root,
      env: { ...process.env, INIT_CWD: folder },
      encoding: 'utf8',
    });
  const { status, stdout } = npmStart();
  expect([status, stdout]).toEqual([0, expect.stringContaining('is in out/hall-bench-leg.pdf')]);
  expect(npmStart(join(root, 'samples/hall-bench-stretcher.yaml'), '--no-cover').status).toBe(0);
  for (const name of ['hall-bench-leg', 'hall-bench-stretcher'])
    expect(readFileSync(join(folder, 'out', `${name}.pdf`), 'latin1')).toMatch(/^%PDF-/);
  expect(npmStart('nowhere.yaml').status).toBe(2);
});
