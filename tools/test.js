// npm test [-- arguments for vitest]
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { fail, root, runTool, setUp } from './setup.js';

const TSC = 'typescript/bin/tsc';
const VITEST = 'vitest/vitest.mjs';

/** The longest first: two run side by side, each mostly on a core of its own. */
const CHECKS = [
  ['types', TSC, ['-p', '.']],
  ['types of the page, in a browser', TSC, ['-p', 'tsconfig.page.json']],
  ['layering and hygiene', VITEST, ['run', 'tests/house']],
  ['types of the core, without Node and browser', TSC, ['-p', 'tsconfig.core.json']],
  ['unused files, exports and packages', 'knip/bin/knip.js', []],
  ['lint and format', '@biomejs/biome/bin/biome', ['check', '--error-on-warnings']],
];
/** Checked above. */
const WITHOUT_HOUSE = ['--exclude', 'tests/house/**'];

const run = promisify(execFile);

async function check([heading, tool, args]) {
  try {
    await run(process.execPath, [join(root, 'node_modules', tool), ...args], { cwd: root });
  } catch ({ stdout, stderr }) {
    fail(`${stdout ?? ''}${stderr ?? ''}\nFAILED: ${heading}`);
  }
  console.log(`ok: ${heading}`);
}

async function checkAll() {
  const left = [...CHECKS];
  const hand = async () => {
    while (left.length > 0) await check(left.shift());
  };
  await Promise.all([hand(), hand()]);
}

setUp();
await checkAll();
const asked = process.argv.slice(2);
process.exitCode =
  runTool(VITEST, ['run', ...(asked.length > 0 ? asked : WITHOUT_HOUSE)], 'inherit').status ?? 1;
