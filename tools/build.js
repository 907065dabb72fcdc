// npm run build: dist/cli.js and its lazily loaded parts, dist/index.js and its types, dist/fairlath.html.
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { buildPage } from './page-build.js';
import { fail, fingerprint, root, runTool, stamp } from './setup.js';
import { WITHOUT_WOFF2 } from './woff2.js';

const dist = join(root, 'dist');

const withoutWoff2 = {
  name: 'without-woff2',
  setup(bundle) {
    bundle.onLoad({ filter: WITHOUT_WOFF2.filter }, () => ({ contents: WITHOUT_WOFF2.contents }));
  },
};

/**
 * The PDF library deflates with zlib in Node and with its own package in a browser: other bytes for the same page.
 * The command line takes what the page takes, so that both write the same file.
 */
const samePdfAsThePage = {
  name: 'same-pdf-as-the-page',
  setup(bundle) {
    bundle.onResolve({ filter: /^pdfkit$/ }, () => ({ path: join(root, PDFKIT_OF_THE_PAGE) }));
  },
};

const PDFKIT_OF_THE_PAGE = 'node_modules/pdfkit/js/pdfkit.browser.mjs';

/** The command line parser can start other programs. Ours starts none, and Node's module for it takes long to load. */
const withoutOtherPrograms = {
  name: 'without-other-programs',
  setup(bundle) {
    bundle.onResolve({ filter: /^(node:)?child_process$/ }, () => ({ path: 'none', namespace: 'none' }));
    bundle.onLoad({ filter: /^none$/, namespace: 'none' }, () => ({ contents: 'module.exports = {};' }));
  },
};

const common = { absWorkingDir: root, bundle: true, format: 'esm', target: 'node20', logLevel: 'silent' };

/**
 * Packages bundled and minified: Node then starts in half the time. What is imported lazily stays in its own file.
 * The PDF writer's own data files (the standard fonts, the PDF/A colour profile) stay behind: every font is embedded.
 */
const cli = {
  ...common,
  entryPoints: { cli: 'src/cli/main.ts' },
  outdir: dist,
  platform: 'node',
  splitting: true,
  chunkNames: 'parts/[name]-[hash]',
  minify: true,
  plugins: [withoutWoff2, withoutOtherPrograms, samePdfAsThePage],
  // Some packages are CommonJS and call require for Node's own modules.
  banner: {
    js: `import { createRequire as nodeRequire } from 'node:module'; const require = nodeRequire(import.meta.url);`,
  },
};

/** For programs, and readable. Their own bundler or Node finds the packages; the PDF writer loads on its own. */
const library = {
  ...common,
  entryPoints: { index: 'src/index.ts', pdf: 'src/export/pdf.ts' },
  splitting: true,
  chunkNames: 'parts/[name]-[hash]',
  outdir: dist,
  platform: 'neutral',
  packages: 'external',
};

async function buildAll() {
  const sources = fingerprint();
  rmSync(dist, { recursive: true, force: true });
  await Promise.all([build(cli), build(library), buildPage()]);
  const types = runTool('typescript/bin/tsc', ['-p', 'tsconfig.build.json']);
  if (types.status !== 0) fail(`${types.stdout}${types.stderr}`);
  writeFileSync(stamp, sources);
}

try {
  await buildAll();
} catch (error) {
  fail(error.message);
}
