import { spawnSync } from 'node:child_process';
import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { freshFolder, root } from './run.ts';

test('npm start prints the sample leg into out/ of the folder one stands in, or the job that is named', () => {
  const folder = freshFolder();
  const npmStart = (...words: string[]) =>
    spawnSync(process.execPath, [join(root, 'tools/start.js'), ...words], {
      cwd: root,
      env: { ...process.env, INIT_CWD: folder },
      encoding: 'utf8',
    });
  const { status, stdout } = npmStart();
  expect([status, stdout]).toEqual([0, expect.stringContaining('Wrote out/hall-bench-leg.pdf')]);
  expect(npmStart(join(root, 'samples/hall-bench-stretcher.yaml'), '--no-cover').status).toBe(0);
  for (const name of ['hall-bench-leg', 'hall-bench-stretcher'])
    expect(readFileSync(join(folder, 'out', `${name}.pdf`), 'latin1')).toMatch(/^%PDF-/);
  expect(npmStart('nowhere.yaml').status).toBe(2);
});

test('a command line that nobody has built names the command that builds it', () => {
  const folder = freshFolder();
  cpSync(join(root, 'bin'), join(folder, 'bin'), { recursive: true });
  const { status, stderr } = spawnSync(process.execPath, [join(folder, 'bin/fairlath.js'), 'show'], {
    encoding: 'utf8',
  });
  expect([status, stderr]).toEqual([1, expect.stringContaining('npm run build')]);
});

test.each(['../cli/all', 'parts/pdfkit', 'constructor'])(
  'refuses %j as a command, whatever file is in dist',
  (word) => {
    const { status, stderr } = spawnSync(process.execPath, [join(root, 'bin/fairlath.js'), word], {
      encoding: 'utf8',
    });
    expect([status, stderr]).toEqual([2, expect.stringContaining(`unknown command '${word}'`)]);
  },
);
