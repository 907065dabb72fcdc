import { spawnSync } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { folder } from './run.ts';

/*
 * The command line without one or the other measure that makes it quick, each in a folder of its own; all give the
 * program to start.
 */

/** A copy of what was built. */
function copied(name: string): { home: string; bin: string; scripts: string } {
  const home = join(folder, name);
  for (const part of ['bin', 'dist/cli']) cpSync(part, join(home, part), { recursive: true });
  cpSync('package.json', join(home, 'package.json'));
  return { home, bin: join(home, 'bin/fairlath.js'), scripts: join(home, 'dist/cli') };
}

const removeFrom = (scripts: string, goes: (name: string) => boolean): void => {
  for (const name of readdirSync(scripts, { recursive: true, encoding: 'utf8' }))
    if (goes(name)) rmSync(join(scripts, name));
};

/** Node compiles every script anew. */
export function withoutCompiled(): string {
  const { bin, scripts } = copied('anew');
  removeFrom(scripts, (name) => name.endsWith('.compiled'));
  return bin;
}

/** The same, with one script for all commands. */
export function withoutOwnScripts(): string {
  const { bin, scripts } = copied('all');
  removeFrom(scripts, (name) => name.endsWith('.compiled') || /^(?!all)[a-z-]+\.cjs$/.test(name));
  return bin;
}

/** Node makes functions faster as soon as it always does. What it compiled is kept for that setting. */
export function withoutPatience(command: string, words: readonly string[]): string {
  const { home, bin, scripts } = copied(`hasty-${command}`);
  const program = readFileSync(bin, 'utf8');
  const hasty = program.replace(/^if .*setFlagsFromString\(.*$/m, '');
  if (hasty === program) throw new Error('bin/fairlath.js sets nothing any more: this measure is gone');
  writeFileSync(bin, hasty);
  removeFrom(scripts, (name) => name.endsWith('.compiled'));
  for (const tool of ['tools/keep-compiled.js', 'tools/setup.js']) cpSync(tool, join(home, tool));
  const { status, stderr } = spawnSync(process.execPath, [join(home, 'tools/keep-compiled.js'), ...words], {
    cwd: folder,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
  return bin;
}

/** The sources as modules, and the packages as they come: what a program is that nobody has bundled. */
export async function asModules(): Promise<string> {
  const { build } = await import('esbuild');
  const outdir = join(folder, 'modules');
  await build({
    entryPoints: [resolve('src/cli/main.ts')],
    outdir,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    packages: 'external',
  });
  return join(outdir, 'main.mjs');
}
