// npm test [-- arguments for vitest]
import { fail, runTool, setUp } from './setup.js';

const BIOME = '@biomejs/biome/bin/biome';
const KNIP = 'knip/bin/knip.js';
const TSC = 'typescript/bin/tsc';
const VITEST = 'vitest/vitest.mjs';

const CHECKS = [
  ['lint and format', BIOME, ['check', '--error-on-warnings']],
  ['types', TSC, ['-p', '.']],
  ['types of the core, without Node and browser', TSC, ['-p', 'tsconfig.core.json']],
  ['types of the page, in a browser', TSC, ['-p', 'tsconfig.page.json']],
  ['layering and hygiene', VITEST, ['run', 'tests/house']],
  ['unused files, exports and packages', KNIP, []],
];

setUp();
for (const [heading, tool, args] of CHECKS) {
  const { status, stdout, stderr } = runTool(tool, args);
  if (status !== 0) fail(`${stdout}${stderr}\nFAILED: ${heading}`);
  console.log(`ok: ${heading}`);
}
process.exitCode = runTool(VITEST, ['run', ...process.argv.slice(2)], 'inherit').status ?? 1;
