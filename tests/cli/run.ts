import { spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../', import.meta.url));
const bin = join(root, 'bin/fairlath.js');

export interface Answer {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** A folder for one test's files, inside the one that is removed at the end (see tests/one-folder.ts). */
export const freshFolder = (): string => mkdtempSync(join(process.env.FAIRLATH_TESTS ?? tmpdir(), 'own-'));

/** Settings of these tests alone: the user's own printers are neither read nor changed. */
const ownSettings = freshFolder();

/** Runs the built command line as a user does. */
export function fairlath(args: readonly string[], cwd = root, settings = ownSettings): Answer {
  const { status, stdout, stderr } = spawnSync(process.execPath, [bin, ...args], {
    cwd,
    env: { ...process.env, XDG_CONFIG_HOME: settings },
    encoding: 'utf8',
  });
  return { code: status, out: stdout, err: stderr };
}
