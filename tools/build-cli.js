// The command line as scripts in dist/cli/: one for each command, one with every command for the list of them, and the
// PDF library, which a command loads when it writes a PDF. bin/fairlath.js runs them.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, transform } from 'esbuild';
import { root } from './setup.js';

/** Half of the PDF writer's code is a dictionary for WOFF2 fonts. Ours is WOFF, so its decoder is left out. */
export const WITHOUT_WOFF2 = {
  filter: /[\\/]brotli[\\/]decompress\.js$/,
  contents: `module.exports = () => { throw new Error('A WOFF2 font cannot be read here. Use WOFF.'); };`,
};

/** As the page has it: the library for Node deflates to other bytes, and both must write the same file. */
const PDF_LIBRARY = 'node_modules/pdfkit/js/pdfkit.browser.mjs';
/** As modules: the bundler leaves out what is not used. */
const YAML_LIBRARY = 'node_modules/yaml/browser/dist/index.js';

/** zlib unpacks the tables of letters and the font in a tenth of the time of the package for browsers. */
const UNPACKED_BY_ZLIB = {
  filter: /[\\/]tiny-inflate[\\/]index\.js$/,
  contents: `
        const { inflateRawSync } = require('node:zlib');
        module.exports = (packed, into) => {
          const bytes = inflateRawSync(packed);
          into.set(bytes);
          return into.slice(0, bytes.length);
        };`,
};

const REPLACED = [WITHOUT_WOFF2, UNPACKED_BY_ZLIB];
const replacedFiles = {
  name: 'replaced-files',
  setup(bundle) {
    for (const { filter, contents } of REPLACED) bundle.onLoad({ filter }, () => ({ contents }));
  },
};

const pdfLibraryApart = {
  name: 'pdf-library-apart',
  setup(bundle) {
    bundle.onResolve({ filter: /^pdfkit$/ }, () => ({ path: './parts/pdfkit.cjs', external: true }));
  },
};

/** fairlath starts no other programs, and Node's module for it, which the command line parser loads, takes long to load. */
const withoutOtherPrograms = {
  name: 'without-other-programs',
  setup(bundle) {
    bundle.onResolve({ filter: /^(node:)?child_process$/ }, () => ({ path: 'none', namespace: 'none' }));
    bundle.onLoad({ filter: /^none$/, namespace: 'none' }, () => ({ contents: 'module.exports = {};' }));
  },
};

/** The files whose code a script holds, without those that a plugin has replaced. */
const filesIn = ({ outputs }) =>
  Object.values(outputs)
    .flatMap(({ inputs }) => Object.entries(inputs))
    .filter(([, { bytesInOutput }]) => bytesInOutput > 0)
    .map(([file]) => file)
    .filter((file) => !REPLACED.some(({ filter }) => filter.test(file)));

async function script(name, options) {
  const { metafile } = await build({
    absWorkingDir: root,
    metafile: true,
    outfile: join(root, 'dist', 'cli', `${name}.cjs`),
    bundle: true,
    minify: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    logLevel: 'silent',
    define: { 'import.meta.url': 'fileUrl' },
    banner: { js: `const fileUrl = require('node:url').pathToFileURL(__filename).href;` },
    ...options,
  });
  return filesIn(metafile);
}

/** A script of the commands that an expression lists; the expression may use what `imports` brings. */
const commandScript = (name, imports, commands) =>
  script(name, {
    stdin: {
      contents: `${imports}\nimport { run } from './main.ts';\nexport const start = () => run(${commands});`,
      resolveDir: join(root, 'src', 'cli'),
    },
    alias: { yaml: `./${YAML_LIBRARY}` },
    plugins: [pdfLibraryApart, withoutOtherPrograms],
  });

/** The names of src/cli/commands.ts, whose functions load nothing until they are called. */
async function commandNames() {
  const source = readFileSync(join(root, 'src', 'cli', 'commands.ts'), 'utf8');
  const { code } = await transform(source, { loader: 'ts' });
  const { COMMANDS } = await import(`data:text/javascript,${encodeURIComponent(code)}`);
  return Object.keys(COMMANDS);
}

export async function buildCli() {
  const names = await commandNames();
  const files = await Promise.all([
    script('parts/pdfkit', {
      entryPoints: [PDF_LIBRARY],
      plugins: [replacedFiles],
      footer: { js: 'module.exports = module.exports.default;' },
    }),
    commandScript('all', `import { COMMANDS } from './commands.ts';`, 'Object.values(COMMANDS)'),
    ...names.map((name) =>
      commandScript(name, `import { makeCommand } from './commands/${name}-command.ts';`, '[makeCommand]'),
    ),
  ]);
  return files.flat();
}
