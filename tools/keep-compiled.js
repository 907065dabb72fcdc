// Keeps beside each script of the command line what Node has compiled of it: Node then need not do so at every start.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { root } from './setup.js';

const LEG = join(root, 'samples', 'hall-bench-leg.yaml');
const READINGS = join(root, 'samples', 'hall-bench-leg-measured.csv');

/** An ordinary run of every command. */
const RUNS = [
  ['--help'],
  ['new', 'leg.yaml'],
  ['show', LEG],
  ['print', LEG],
  ['draw', LEG],
  ['offsets', LEG, '--every', '2'],
  ['batten', LEG],
  ['stock', LEG, '--board-width', '10'],
  ['saw', LEG],
  ['card', LEG],
  ['check', LEG, '--edge', 'back', '--measured', READINGS],
  ['take-off', READINGS, '-o', 'taken-off.yaml'],
  ['page', '--help'],
  ['printer', 'sheet'],
];

/**
 * Functions are compiled when they are first called. So each command is run once, and kept is what that has compiled:
 * all that such a run needs and little more, for what is kept takes time to read.
 */
export function keepCompiled() {
  const folder = mkdtempSync(join(tmpdir(), 'fairlath-build-'));
  try {
    for (const words of RUNS) {
      const { status, stderr } = spawnSync(process.execPath, [fileURLToPath(import.meta.url), ...words], {
        cwd: folder,
        encoding: 'utf8',
      });
      if (status !== 0) throw new Error(`fairlath ${words.join(' ')}: ${stderr}`);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function runAndKeep() {
  const { start, scripts, sum } = createRequire(import.meta.url)('../bin/fairlath.js');
  start();
  process.on('exit', () => {
    for (const [file, script] of scripts)
      writeFileSync(`${file}.compiled`, withSum(script.createCachedData(), sum));
  });
}

/** The bytes, filled up to whole words, and their sum as one more: see bin/fairlath.js. */
function withSum(bytes, sum) {
  const words = new Int32Array(Math.ceil(bytes.length / 4) + 1);
  new Uint8Array(words.buffer).set(bytes);
  words[words.length - 1] = sum(words);
  return words;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) runAndKeep();
