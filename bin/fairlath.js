#!/usr/bin/env node
// CommonJS, as package.json beside this file says: Node starts that sooner than a module.
const { existsSync, readFileSync } = require('node:fs');
const { join } = require('node:path');
const { pathToFileURL } = require('node:url');
const { Script } = require('node:vm');

const built = join(__dirname, '..', 'dist', 'cli');

/** Each script that was run, by its file: tools/keep-compiled.js keeps what Node made of it. */
const scripts = new Map();

/** What Node made of a script when it was built, so that it need not compile it again; often there is none. */
function compiled(file) {
  try {
    return readFileSync(`${file}.compiled`);
  } catch {
    return undefined;
  }
}

/** Runs a built script. Another Node refuses what was kept, and compiles the script as if there were nothing. */
function run(name) {
  const file = join(built, `${name}.cjs`);
  const source = readFileSync(file, 'latin1');
  const script = new Script(source, { filename: file, cachedData: compiled(file) });
  scripts.set(file, script);
  const module = { exports: {} };
  const part = (wanted) => (wanted.startsWith('./') ? run(wanted.slice(2)) : require(wanted));
  script.runInThisContext()(part, module, module.exports, pathToFileURL(file).href);
  return module.exports;
}

/** A script of its own for each command; the one with all of them for the list of commands. */
const word = process.argv[2] ?? '';
const alone = /^[a-z-]+$/.test(word) && existsSync(join(built, `${word}.cjs`));

if (existsSync(built)) {
  run(alone ? word : 'all');
} else {
  console.error('fairlath is not built yet. Run "npm run build" once in its folder, then try again.');
  process.exitCode = 1;
}

module.exports = { scripts };
