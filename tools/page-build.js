// npm run page:build: dist/fairlath.html, the browser page as one file that opens by itself.
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';
import { WITHOUT_WOFF2 } from './build-cli.js';
import { noticesOf } from './notices.js';
import { root } from './setup.js';

const SAMPLES = join(root, 'samples');
const SAMPLES_MODULE = 'virtual:samples';

const builtIn = {
  name: 'built-in-samples',
  resolveId: (id) => (id === SAMPLES_MODULE ? `\0${SAMPLES_MODULE}` : null),
  load(id) {
    if (id !== `\0${SAMPLES_MODULE}`) return null;
    const texts = ORDER.map((name) => readFileSync(join(SAMPLES, name), 'utf8'));
    const samples = texts.map((text) => ({ name: /^part: (.+)$/m.exec(text)[1], text }));
    return `export const SAMPLES = ${JSON.stringify(samples)};`;
  },
};

/** The leg first: the page opens with it. */
const ORDER = readdirSync(SAMPLES)
  .filter((name) => name.endsWith('.yaml'))
  .sort((a, b) => b.startsWith('hall-bench-leg') - a.startsWith('hall-bench-leg') || a.localeCompare(b));

const withoutWoff2 = {
  name: 'without-woff2',
  enforce: 'pre',
  load: (id) => (WITHOUT_WOFF2.filter.test(id.split('?')[0]) ? WITHOUT_WOFF2.contents : null),
};

/** Scripts and styles are allowed by their hashes; nothing is ever fetched. */
function withPolicy(html) {
  const scripts = bodies(html, 'script');
  // The script's own texts hold the styles of the pictures that it writes.
  const withoutScripts = scripts.reduce((rest, script) => rest.replace(script, () => ''), html);
  const styles = bodies(withoutScripts, 'style');
  const policy = [
    "default-src 'none'",
    `script-src ${scripts.map(hashed).join(' ')}`,
    `style-src ${styles.map(hashed).join(' ')}`,
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const meta = `<meta http-equiv="Content-Security-Policy" content="${policy}" />`;
  return html.replace('<head>', `<head>\n    ${meta}`);
}

const bodies = (html, tag) =>
  [...html.matchAll(new RegExp(`<${tag}[^>]*>([\\s\\S]*?)</${tag}>`, 'g'))].map(([, body]) => body);

const hashed = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

const listing = (files) => ({
  name: 'listing',
  generateBundle(_, bundle) {
    for (const { modules = {} } of Object.values(bundle))
      files.push(...Object.keys(modules).filter((file) => !WITHOUT_WOFF2.filter.test(file)));
  },
});

/** At the end, where they do not delay the page. */
function withNotices(html, files) {
  const notices = noticesOf(files);
  if (/--!?>/.test(notices)) throw new Error('A license notice has the end of a comment in it.');
  return `${html.trimEnd()}\n<!--\nThis page holds code and type of these packages, under these licenses.\n\n${notices}-->\n`;
}

export async function buildPage() {
  const files = [];
  const { output } = await build({
    configFile: false,
    root: join(root, 'src', 'page'),
    logLevel: 'silent',
    plugins: [builtIn, withoutWoff2, listing(files), viteSingleFile({ removeViteModuleLoader: true })],
    build: { write: false, target: 'es2023', modulePreload: false, chunkSizeWarningLimit: 4096 },
  });
  const html = output.find(({ fileName }) => fileName === 'index.html').source;
  mkdirSync(join(root, 'dist'), { recursive: true });
  writeFileSync(join(root, 'dist', 'fairlath.html'), withNotices(withPolicy(String(html)), files));
  return files;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildPage();
