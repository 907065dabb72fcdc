// The browser of the tests, the pictures and the bench, unpacked from its package.
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { fail, root } from './setup.js';

const PACKAGE = '@sparticuz/chromium';
/** Run as a program, this file unpacks into the folder for temporary files: the package knows no other place. */
const ITSELF = fileURLToPath(import.meta.url);
const CACHE = join(root, 'node_modules', '.cache', 'fairlath');

/** Unpacked once for each clone and version: a folder that all programs share may hold half of another's browser. */
export function browserPath() {
  const { version } = JSON.parse(readFileSync(join(root, 'node_modules', PACKAGE, 'package.json'), 'utf8'));
  const home = join(CACHE, `browser-${version}`);
  const program = join(home, 'chromium');
  if (!existsSync(program)) unpack(home);
  return program;
}

/** Renamed once it is whole: two may unpack at a time, or one be killed. */
function unpack(home) {
  mkdirSync(CACHE, { recursive: true });
  const aside = mkdtempSync(`${home}-`);
  const env = { ...process.env, TMPDIR: aside, TEMP: aside, TMP: aside };
  const { status, stderr } = spawnSync(process.execPath, [ITSELF], { env, encoding: 'utf8' });
  if (status !== 0) fail(`The browser for the tests cannot be unpacked.\n${stderr}`);
  for (const file of [aside, join(aside, 'chromium')]) chmodSync(file, 0o755);
  try {
    renameSync(aside, home);
  } catch (error) {
    // Another run has been faster: its browser is as good.
    if (!existsSync(join(home, 'chromium'))) throw error;
    rmSync(aside, { recursive: true });
  }
}

if (process.argv[1] === ITSELF) {
  const { default: packed } = await import('@sparticuz/chromium');
  await packed.executablePath();
}
