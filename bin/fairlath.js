#!/usr/bin/env node
// CommonJS, as package.json beside this file says: Node starts that sooner than a module.
const { existsSync, readFileSync } = require('node:fs');
const { join } = require('node:path');
const { pathToFileURL } = require('node:url');
const { setFlagsFromString } = require('node:v8');
const { Script } = require('node:vm');

/**
 * How much of a function runs before Node works out a faster form of it: fifteen times the usual. Most of what a short
 * run would make faster is never called again: a pattern of five sheets takes two thirds to three quarters of the time,
 * one of a thousand four fifths. Newer Nodes count calls, for each of two faster forms. A Node that was never tried is
 * left as it is: it would complain of a setting that it does not know.
 */
const CALLS = '--invocation-count-for-turbofan=45000 --invocation-count-for-maglev=6000';
const PATIENCE = { 20: '--interrupt-budget=1000000', 22: CALLS, 24: CALLS };
const patience = PATIENCE[Number.parseInt(process.versions.node, 10)];
if (patience) setFlagsFromString(patience);

const built = join(__dirname, '..', 'dist', 'cli');

/** Each script that was run, by its file: tools/keep-compiled.js keeps what Node made of it. */
const scripts = new Map();
const parts = new Map();

/**
 * What Node made of a script when it was built, so that it need not compile it again; often there is none. Node tells
 * by itself where another Node made it, or where the end is missing, but trusts the rest: whether that is as it was
 * written, the sum kept as the last word tells.
 */
function compiled(file) {
  try {
    const bytes = readFileSync(`${file}.compiled`);
    const words = new Int32Array(bytes.buffer, bytes.byteOffset, bytes.length >> 2);
    return sum(words) === words[words.length - 1]
      ? bytes.subarray(0, -Int32Array.BYTES_PER_ELEMENT)
      : undefined;
  } catch {
    return undefined;
  }
}

/** Of one word in 4096 bytes, the block that a disk loses: to add up every word would take as long as is saved. */
const STEP = 1024;
function sum(words) {
  let total = 0;
  for (let i = 0; i < words.length - 1; i += STEP) total = (Math.imul(total, 33) + words[i]) | 0;
  return total;
}

/** Another Node refuses what was kept, and compiles the script as if there were nothing. */
function scriptOf(file) {
  const known = scripts.get(file);
  if (known) return known;
  const script = new Script(readFileSync(file, 'latin1'), { filename: file, cachedData: compiled(file) });
  scripts.set(file, script);
  return script;
}

/** Runs a built script and gives what it exports. */
function run(name) {
  const file = join(built, `${name}.cjs`);
  const module = { exports: {} };
  scriptOf(file).runInThisContext()(partOrNode, module, module.exports, pathToFileURL(file).href);
  return module.exports;
}

/** What a script asks for: a part of its own, run once, or a module of Node's. */
function partOrNode(wanted) {
  if (!wanted.startsWith('./')) return require(wanted);
  if (!parts.has(wanted)) parts.set(wanted, run(wanted));
  return parts.get(wanted);
}

/**
 * Runs the command that process.argv names: by a script of its own, or for the list of commands by the one with all
 * of them. Gives a promise of its end.
 */
function start() {
  const word = process.argv[2] ?? '';
  if (/^[a-z-]+$/.test(word) && isBuilt(word)) return run(word).done;
  if (isBuilt('all')) return run('all').done;
  console.error('fairlath is not built yet. Run "npm run build" once in its folder, then try again.');
  process.exitCode = 1;
  return Promise.resolve();
}

const isBuilt = (name) => existsSync(join(built, `${name}.cjs`));

if (require.main === module) {
  // All has been said and written: Node need not clear away what the system takes back at once.
  process.once('beforeExit', () => process.exit());
  start();
}

module.exports = { start, scripts, sum };
