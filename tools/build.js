// npm run build: dist/cli/ (see tools/build-cli.js), dist/index.js and its types, dist/fairlath.html, the notices.
import { execFile } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import { buildCli } from './build-cli.js';
import { noticesOf } from './notices.js';
import { buildPage } from './page-build.js';
import { fail, fingerprint, root, stamp } from './setup.js';

const dist = join(root, 'dist');

const common = { absWorkingDir: root, bundle: true, format: 'esm', target: 'node20', logLevel: 'silent' };

/** For programs, and readable. Their own bundler or Node finds the packages; the PDF writer loads on its own. */
const library = {
  ...common,
  entryPoints: { index: 'src/index.ts', pdf: 'src/export/writers/pdf.ts' },
  splitting: true,
  chunkNames: 'parts/[name]-[hash]',
  outdir: dist,
  platform: 'neutral',
  packages: 'external',
};

const NOTICES = 'dist/cli and dist/fairlath.html hold code and type of these packages, under these licenses.';

async function buildTypes() {
  const compiler = join(root, 'node_modules', 'typescript', 'bin', 'tsc');
  try {
    await promisify(execFile)(process.execPath, [compiler, '-p', 'tsconfig.build.json'], { cwd: root });
  } catch ({ stdout, stderr }) {
    throw new Error(`${stdout}${stderr}`);
  }
}

async function buildAll() {
  const sources = fingerprint();
  rmSync(dist, { recursive: true, force: true });
  const [cliFiles, pageFiles] = await Promise.all([buildCli(), buildPage(), build(library), buildTypes()]);
  writeFileSync(
    join(dist, 'THIRD-PARTY-NOTICES.txt'),
    `${NOTICES}\n\n${noticesOf([...cliFiles, ...pageFiles])}`,
  );
  writeFileSync(stamp, sources);
}

try {
  await buildAll();
} catch (error) {
  fail(error.message);
}
