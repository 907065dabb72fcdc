import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { folder } from './run.ts';

/*
 * The command line without one or the other measure that makes it quick, each in a folder of its own; all give the
 * program to start.
 */

/** A copy of what was built. */
function copied(name: string): { bin: string; scripts: string } {
  const home = join(folder, name);
  for (const part of ['bin', 'dist/cli']) cpSync(part, join(home, part), { recursive: true });
  cpSync('package.json', join(home, 'package.json'));
  return { bin: join(home, 'bin/fairlath.js'), scripts: join(home, 'dist/cli') };
}

/** The copy with one change of its starting program. */
function changed(name: string, line: RegExp): string {
  const { bin } = copied(name);
  const program = readFileSync(bin, 'utf8');
  const without = program.replace(line, '');
  if (without === program) throw new Error(`bin/fairlath.js has no ${line}: this measure is gone`);
  writeFileSync(bin, without);
  return bin;
}

/** One script for all commands. */
export function withoutOwnScripts(): string {
  const { bin, scripts } = copied('all');
  for (const name of readdirSync(scripts))
    if (/^(?!all)[a-z-]+\.cjs$/.test(name)) rmSync(join(scripts, name));
  return bin;
}

/** Node compiles every script again. */
export const withoutCompileCache = (): string => changed('anew', /^enableCompileCache.*$/m);

/** Node optimizes and compiles functions when it always does. */
export const withoutFlags = (): string => changed('hasty', /^if .*setFlagsFromString\(.*$/m);

/** The sources as modules, and the packages as they come: what a program is that nobody has bundled. */
export async function asModules(): Promise<string> {
  const { build } = await import('esbuild');
  const outfile = join(folder, 'modules', 'main.mjs');
  await build({
    stdin: {
      contents: `
        import { run } from './main.ts';
        import { COMMANDS } from './commands.ts';
        await run([COMMANDS[process.argv[2]]]);`,
      resolveDir: 'src/cli',
    },
    outdir: dirname(outfile),
    entryNames: 'main',
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    packages: 'external',
  });
  return outfile;
}
