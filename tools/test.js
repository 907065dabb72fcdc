// npm test [-- arguments for vitest]
import { join } from 'node:path';
import { fail, root, run, setUp } from './setup.js';

const CHECKS = [
  ['lint and format', 'biome', ['check', '--error-on-warnings']],
  ['types', 'tsc', ['-p', '.']],
  ['types of the core, without Node and browser', 'tsc', ['-p', 'tsconfig.core.json']],
  ['layering and hygiene', 'vitest', ['run', 'tests/house']],
  ['unused files, exports and packages', 'knip', []],
];

const tool = (name) => join(root, 'node_modules', '.bin', name);

setUp();
for (const [heading, name, args] of CHECKS) {
  const { status, stdout, stderr } = run(tool(name), args);
  if (status !== 0) fail(`${stdout}${stderr}\nFAILED: ${heading} (${name} ${args.join(' ')})`);
  console.log(`ok: ${heading}`);
}
process.exitCode = run(tool('vitest'), ['run', ...process.argv.slice(2)], 'inherit').status ?? 1;
