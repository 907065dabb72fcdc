import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** A text file of the project: its path from the root, with forward slashes, and what it says. */
export interface Source {
  readonly path: string;
  readonly text: string;
}

const notOurs = new Set(['node_modules', 'dist', 'out', '.git']);

function pathsIn(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    if (notOurs.has(entry.name)) return [];
    const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
    return entry.isDirectory() ? pathsIn(path) : [path];
  });
}

/** Every text file under a folder ('' for the whole project). */
export function readSources(folder: string): Source[] {
  return pathsIn(folder)
    .map((path) => ({ path, text: readFileSync(join(root, path), 'utf8') }))
    .filter(({ text }) => !text.includes('\0'));
}
