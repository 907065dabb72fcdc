import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
} from 'node:fs';
import { basename, dirname, join, relative, sep } from 'node:path';
import ts from 'typescript';
import { beforeAll, describe, expect, test } from 'vitest';
import { folderWith, freshFolder, root } from './run.ts';

/** What a clone does not hold. */
const NOT_CLONED = ['.git', 'node_modules', 'dist', 'out', 'release'];

/** A clone that nobody has built, in a folder with a space and letters beyond ASCII in its name. */
const clone = join(freshFolder(), 'Bänke und Bögen');
const prefix = freshFolder();
const installed = join(prefix, 'lib', 'node_modules', 'fairlath');
const packed = freshFolder();

function run(command: string, words: readonly string[], cwd: string, env: NodeJS.ProcessEnv = {}): string {
  const { status, stdout, stderr, error } = spawnSync(command, words, {
    cwd,
    env: { ...process.env, ...env },
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${command} ${words.join(' ')}: ${error ?? ''}${stdout}${stderr}`);
  return stdout;
}

/**
 * As npm installs a package for all to run, without its server or cache: the tarball unpacked, the dependencies that it
 * names and no others beside it, its command linked.
 */
function install(): void {
  const [tarball] = readdirSync(packed);
  run('tar', ['-xzf', tarball!], packed);
  mkdirSync(dirname(installed), { recursive: true });
  renameSync(join(packed, 'package'), installed);
  const { dependencies, bin } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
  for (const name of Object.keys(dependencies)) {
    const place = join(installed, 'node_modules', name);
    mkdirSync(dirname(place), { recursive: true });
    symlinkSync(join(root, 'node_modules', name), place);
  }
  mkdirSync(join(prefix, 'bin'));
  chmodSync(join(installed, bin.fairlath), 0o755);
  symlinkSync(join(installed, bin.fairlath), join(prefix, 'bin', 'fairlath'));
}

const fairlath = (words: readonly string[], cwd: string): string =>
  run(process.execPath, [join(prefix, 'bin', 'fairlath'), ...words], cwd, { XDG_CONFIG_HOME: cwd });

/** A folder with these files that finds the package as its own dependency. */
function folderBesidePackage(files: Readonly<Record<string, string>>): string {
  const folder = folderWith(files);
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(installed, join(folder, 'node_modules', 'fairlath'));
  return folder;
}

/** The language's own types are read once for both ways to resolve. */
const compilerHost = ((): ts.CompilerHost => {
  const host = ts.createCompilerHost({});
  const parsed = new Map<string, ts.SourceFile | undefined>();
  return {
    ...host,
    getSourceFile: (name, ...how) => {
      if (!basename(name).startsWith('lib.')) return host.getSourceFile(name, ...how);
      if (!parsed.has(name)) parsed.set(name, host.getSourceFile(name, ...how));
      return parsed.get(name);
    },
  };
})();

const filesIn = (folder: string, ending = ''): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith(ending));

// npm makes a batch file for a command there, which only a shell starts.
describe.skipIf(process.platform === 'win32')('the package of a clone that nobody has built', () => {
  beforeAll(() => {
    cpSync(root, clone, {
      recursive: true,
      filter: (file) => !NOT_CLONED.includes(relative(root, file).split(sep)[0]!),
    });
    symlinkSync(join(root, 'node_modules'), join(clone, 'node_modules'));
    run('npm', ['pack', '--silent', '--pack-destination', packed], clone);
    install();
  }, 300_000);

  test('holds what was built, and not the stamp of the build', () => {
    const files = filesIn(join(installed, 'dist'));
    for (const name of [
      'index.js',
      'pdf.js',
      'fairlath.html',
      'THIRD-PARTY-NOTICES.txt',
      join('cli', 'print.cjs'),
    ])
      expect(files).toContain(name);
    expect(files.filter((name) => basename(name).startsWith('.'))).toEqual([]);
    expect(filesIn(join(installed, 'dist', 'cli'), '.cjs')).toEqual(
      filesIn(join(root, 'dist', 'cli'), '.cjs'),
    );
  });

  test('has no dead link in its documents', () => {
    const links = [
      'README.md',
      'DEVELOPERS.md',
      'CHANGELOG.md',
      ...filesIn(join(installed, 'docs'), '.md').map((name) => join('docs', name)),
    ].flatMap((name) =>
      [...readFileSync(join(installed, name), 'utf8').matchAll(/\]\((?!https?:|#)([^)#]+)/g)].map(([, to]) =>
        join(dirname(name), to!),
      ),
    );
    expect(links.length).toBeGreaterThan(20);
    expect(links.filter((name) => !existsSync(join(installed, name)))).toEqual([]);
  });

  test('runs every command from a folder of its own', () => {
    const folder = freshFolder();
    const leg = join('samples', 'hall-bench-leg.yaml');
    const readings = join('samples', 'hall-bench-leg-measured.csv');
    const commands = [
      ['new', '--samples'],
      ['show', leg],
      ['print', leg],
      ['draw', leg],
      ['offsets', leg],
      ['batten', leg],
      ['stock', leg],
      ['saw', leg],
      ['card', leg],
      ['check', leg, '--edge', 'back', '--measured', readings],
      ['take-off', readings, '-o', 'taken-off.yaml'],
      ['page', '--help'],
      ['printer', 'sheet'],
    ];
    const [, list] = fairlath(['--help'], folder).split('Commands:\n');
    const listed = [...list!.split('\n\n')[0]!.matchAll(/^ {2}([a-z-]+)/gm)].map(([, name]) => name);
    expect(commands.map(([name]) => name)).toEqual(listed);
    for (const words of commands) expect(fairlath(words, folder), words.join(' ')).not.toBe('');
    expect(readFileSync(join(folder, 'hall-bench-leg.pdf'), 'latin1')).toMatch(/^%PDF-/);
  });

  test.each([
    ['nodenext', ts.ModuleKind.NodeNext, ts.ModuleResolutionKind.NodeNext],
    ['bundler', ts.ModuleKind.ESNext, ts.ModuleResolutionKind.Bundler],
  ])('has types for both entries, resolved as %s', (_, module, moduleResolution) => {
    const folder = folderBesidePackage({
      'package.json': '{ "type": "module" }',
      'both.ts': `import { layOut, makePart, parseJob, type Layout, type Part } from 'fairlath';
       import { writePatternPdf } from 'fairlath/pdf';
       export const pdf = (text: string, options: Parameters<typeof layOut>[1], font: Uint8Array): Promise<Uint8Array> => {
         const part: Part = makePart(parseJob(text).job);
         const layout: Layout = layOut(part, options);
         return writePatternPdf(part, layout, { font, cover: true });
       };
       // @ts-expect-error: a part has types, so that a wrong name is found.
       export const wrong = (part: Part) => part.nothing;
       // @ts-expect-error: so has the writer.
       writePatternPdf('no part');`,
    });
    const program = ts.createProgram(
      [join(folder, 'both.ts')],
      {
        module,
        moduleResolution,
        target: ts.ScriptTarget.ES2023,
        lib: ['lib.es2023.d.ts'],
        types: [],
        strict: true,
        noEmit: true,
      },
      compilerHost,
    );
    const complaints = ts.getPreEmitDiagnostics(program).map(({ messageText }) => messageText);
    expect(complaints).toEqual([]);
    expect(program.getSourceFiles().some(({ fileName }) => fileName.includes('fairlath'))).toBe(true);
  });

  test('both entries load', () => {
    const program = `const [a, b] = await Promise.all([import('fairlath'), import('fairlath/pdf')]); console.log(typeof a.parseJob, typeof b.writePdf)`;
    const folder = folderBesidePackage({ 'both.mjs': program });
    expect(run(process.execPath, ['both.mjs'], folder)).toBe('function function\n');
  });

  test('names the license of every package that the command line and the page hold', () => {
    const { dependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    const notices = readFileSync(join(installed, 'dist', 'THIRD-PARTY-NOTICES.txt'), 'utf8');
    const page = readFileSync(join(installed, 'dist', 'fairlath.html'), 'utf8');
    for (const [name, version] of Object.entries(dependencies))
      expect(notices).toContain(`\n${name} ${version}, `);
    for (const name of ['@fontsource/source-sans-3', '@svgdotjs/svg.js', 'fontkit', 'pdfkit', 'yaml'])
      expect(page).toMatch(new RegExp(`\n${name} [0-9.]+, [A-Z]`));
    for (const text of [notices, page]) expect(text).toContain('SIL OPEN FONT LICENSE Version 1.1');
  });

  test('npm start prints the sample leg in such a clone', () => {
    const out = freshFolder();
    run('npm', ['start', '--silent'], clone, { INIT_CWD: out });
    expect(readFileSync(join(clone, 'out', 'hall-bench-leg.pdf'), 'latin1')).toMatch(/^%PDF-/);
  });
});
