// Sets up whatever a bare clone lacks. Plain Node with no packages: it runs before there are any.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const OLDEST_NODE = 20;
/** What the build reads. */
const BUILD_FOLDERS = ['bin', 'samples', 'src', 'tools'];
const BUILD_FILES = [
  'package-lock.json',
  'package.json',
  ...['', '.build', '.page'].map((of) => `tsconfig${of}.json`),
];

export const root = fileURLToPath(new URL('..', import.meta.url));
export const cli = join(root, 'bin', 'fairlath.js');
/** Holds the fingerprint of the sources of dist; written last, so a broken build has none. */
export const stamp = join(root, 'dist', '.stamp');

export function fail(message) {
  console.error(message);
  process.exit(1);
}

/** Installs the packages and builds dist where needed. Silent when there is nothing to do. */
export function setUp() {
  installPackages();
  if (!isBuilt()) step('Building fairlath ...', process.execPath, [join(root, 'tools', 'build.js')]);
}

function installPackages() {
  const { node } = process.versions;
  if (Number.parseInt(node, 10) < OLDEST_NODE)
    fail(`This is Node ${node}, which is too old. fairlath needs Node ${OLDEST_NODE} or newer.`);
  // No package here needs its install script, and npm stops to ask about them. The log level: under
  // `npm start --silent` npm would fail without a word.
  if (!isInstalled()) step('Installing packages ...', 'npm', ['ci', '--ignore-scripts', '--loglevel=error']);
}

/** By the list that npm leaves in node_modules once it has finished. */
function isInstalled() {
  const list = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(list)) return false;
  const { packages: installed } = JSON.parse(readFileSync(list, 'utf8'));
  const { packages: wanted } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  return Object.entries(wanted).every(
    ([place, { version, optional }]) =>
      place === '' || (place in installed ? installed[place].version === version : optional === true),
  );
}

const isBuilt = () => existsSync(stamp) && readFileSync(stamp, 'utf8') === fingerprint();

/** Of the content, not the times: in a fresh clone every file is equally new. */
export function fingerprint() {
  const hash = createHash('sha256');
  const sources = BUILD_FOLDERS.flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, withFileTypes: true }),
  )
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
  for (const file of [...BUILD_FILES.map((name) => join(root, name)), ...sources]) {
    const bytes = readFileSync(file);
    hash.update(`${file.slice(root.length)} ${bytes.length}\n`).update(bytes);
  }
  return hash.digest('hex');
}

/** Runs one step of the setting up; its output is shown only if it fails. */
export function step(line, command, args) {
  console.error(line);
  // On Windows npm is a batch file, which only a shell can start.
  const shell = command === 'npm' && process.platform === 'win32';
  const { status, error, stdout, stderr } = spawnSync(command, args, { cwd: root, shell, encoding: 'utf8' });
  if (status !== 0) fail(`${stdout ?? ''}${stderr ?? ''}${error?.message ?? ''}`.trim());
}

/** Runs the command of an installed package, by the path of its script in node_modules. */
export function runTool(script, args, stdio = 'pipe') {
  const words = [join(root, 'node_modules', script), ...args];
  return spawnSync(process.execPath, words, { cwd: root, stdio, encoding: 'utf8' });
}
