#!/usr/bin/env node
// CommonJS, as package.json beside this file says: Node starts that sooner than a module.
const { existsSync } = require('node:fs');
const { enableCompileCache } = require('node:module');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');

/** Later optimization: most functions of a short run are not called often enough to pay for it. Other Nodes may not know the flag. */
const LATER = { 20: '--interrupt-budget=1000000' }[Number.parseInt(process.versions.node, 10)];
if (LATER) setFlagsFromString(LATER);
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
