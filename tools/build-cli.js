// The command line as scripts in dist/cli/: one a command with all it needs, one with every command for the list of
// them, and the PDF library, which only what writes a PDF loads. bin/fairlath.js runs them.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { build } from 'esbuild';
import { root } from './setup.js';
import { WITHOUT_WOFF2 } from './woff2.js';

const MAIN = 'src/cli/main.ts';

/**
 * The PDF library deflates with zlib in Node and with its own package in a browser: other bytes for the same page.
 * The command line takes what the page takes, so that both write the same file.
 */
const PDFKIT_OF_THE_PAGE = 'node_modules/pdfkit/js/pdfkit.browser.mjs';

const withoutWoff2 = {
  name: 'without-woff2',
  setup(bundle) {
    bundle.onLoad({ filter: WITHOUT_WOFF2.filter }, () => ({ contents: WITHOUT_WOFF2.contents }));
  },
};

/** Its tables of letters are packed; zlib unpacks them in a tenth of the time of the package meant for browsers. */
const unpackedByZlib = {
  name: 'unpacked-by-zlib',
  setup(bundle) {
    bundle.onLoad({ filter: /[\\/]tiny-inflate[\\/]index\.js$/ }, () => ({
      contents: `
        const { inflateRawSync } = require('node:zlib');
        module.exports = (packed, into) => {
          const bytes = inflateRawSync(packed);
          into.set(bytes);
          return into.slice(0, bytes.length);
        };`,
    }));
  },
};

/** The PDF library's own data files (the standard fonts, the PDF/A profile) stay behind: every font is embedded. */
const pdfkitByItself = {
  name: 'pdfkit-by-itself',
  setup(bundle) {
    bundle.onResolve({ filter: /^pdfkit$/ }, () => ({ path: './parts/pdfkit', external: true }));
  },
};

/** Of the YAML library only what is used: of its modules that can be told, which those for Node do not let. */
const YAML_IN_MODULES = 'node_modules/yaml/browser/dist/index.js';
const onlyUsedYaml = {
  name: 'only-used-yaml',
  setup(bundle) {
    bundle.onResolve({ filter: /^yaml$/ }, () => ({ path: join(root, YAML_IN_MODULES) }));
  },
};

/** The command line parser can start other programs. Ours starts none, and Node's module for it takes long to load. */
const withoutOtherPrograms = {
  name: 'without-other-programs',
  setup(bundle) {
    bundle.onResolve({ filter: /^(node:)?child_process$/ }, () => ({ path: 'none', namespace: 'none' }));
    bundle.onLoad({ filter: /^none$/, namespace: 'none' }, () => ({ contents: 'module.exports = {};' }));
  },
};

/**
 * Of the commands that main.ts loads, one is in the script, and at hand from its start: main.ts is never asked for the
 * others there, and a module that is loaded later costs time to wrap.
 */
const onlyCommand = (command) => ({
  name: 'only-command',
  setup(bundle) {
    bundle.onLoad({ filter: /[\\/]src[\\/]cli[\\/]main\.ts$/ }, ({ path }) => ({
      loader: 'ts',
      contents: `import * as command from './${command}.ts';\n${readFileSync(path, 'utf8')
        .replace(`await import('./${command}.ts')`, 'command')
        .replace(/^.*await import\(.*\n/gm, '')}`,
    }));
  },
});

/**
 * The bundler leaves letters beyond ASCII in regular expressions. Escaped they mean the same, and bin/fairlath.js may
 * read the scripts one byte a letter.
 */
const inAscii = {
  name: 'in-ascii',
  setup(bundle) {
    bundle.onEnd(({ outputFiles: [file] }) => {
      const text = file.text.replace(
        /[^\0-\x7f]/g,
        (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`,
      );
      mkdirSync(dirname(file.path), { recursive: true });
      writeFileSync(file.path, text);
    });
  },
};

/** Packages bundled and minified into one expression: the function that bin/fairlath.js calls. */
const script = (entry, name, plugins, value = 'module.exports') => ({
  absWorkingDir: root,
  entryPoints: [entry],
  outfile: join(root, 'dist', 'cli', `${name}.cjs`),
  write: false,
  bundle: true,
  minify: true,
  format: 'cjs',
  platform: 'node',
  target: 'node20',
  logLevel: 'silent',
  plugins: [...plugins, inAscii],
  define: { 'import.meta.url': 'fileUrl' },
  banner: { js: '(function (require, module, exports, fileUrl) {' },
  footer: { js: `module.exports = ${value};})` },
});

/** The commands, by the modules that main.ts loads. */
const COMMANDS = [...readFileSync(join(root, MAIN), 'utf8').matchAll(/import\('\.\/([a-z-]+)\.ts'\)/g)].map(
  ([, name]) => name,
);

export async function buildCli() {
  const shared = [pdfkitByItself, onlyUsedYaml, withoutOtherPrograms];
  await Promise.all([
    build(
      script(PDFKIT_OF_THE_PAGE, 'parts/pdfkit', [withoutWoff2, unpackedByZlib], 'module.exports.default'),
    ),
    build(script(MAIN, 'all', shared)),
    ...COMMANDS.map((name) => build(script(MAIN, name, [onlyCommand(name), ...shared]))),
  ]);
}
