// npm run bench
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { fail, root, setUp } from './setup.js';

const source = join(root, 'tests', 'bench', 'main.ts');
const bundle = join(root, 'node_modules', '.cache', 'fairlath', 'bench.js');

if (!existsSync(source)) fail('There are no benchmarks: tests/bench/main.ts is missing.');
setUp();
const { build } = await import('esbuild');
await build({
  entryPoints: [source],
  outfile: bundle,
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  packages: 'external',
  // It finds its folder by its own place, which the bundle has not.
  external: [join(root, 'tools', 'browser.js')],
});
await import(pathToFileURL(bundle).href);
