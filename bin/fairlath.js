#!/usr/bin/env node
// CommonJS, as package.json beside this file says: Node starts that sooner than a module.
const { existsSync } = require('node:fs');
const { enableCompileCache } = require('node:module');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');

/**
 * Node optimizes a function later: most functions of a short run are not called often enough to pay for that. Where Node
 * keeps what it has compiled, it compiles all functions at once, so that it can keep them all. Together this saves a
 * quarter to a third of the time of `print`. Other Nodes may not know the flags.
 */
const KEEP_ALL = '--no-lazy --invocation-count-for-turbofan=45000 --invocation-count-for-maglev=6000';
const FLAGS = { 20: '--interrupt-budget=1000000', 22: KEEP_ALL, 24: KEEP_ALL };
const flags = FLAGS[Number.parseInt(process.versions.node, 10)];
if (flags) setFlagsFromString(flags);
enableCompileCache?.();

/** Runs the command that process.argv names, or for the list of commands the script with all of them. */
async function start() {
  const scripts = [process.argv[2] ?? '', 'all']
    .filter((word) => /^[a-z-]+$/.test(word))
    .map((word) => join(__dirname, '..', 'dist', 'cli', `${word}.cjs`));
  const script = scripts.find((file) => existsSync(file));
  if (script) return require(script).start();
  console.error('fairlath is not built yet. Run "npm run build" once in its folder, then try again.');
  process.exitCode = 1;
}

if (require.main === module) start();

module.exports = { start };
