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

/** Runs the built command line as a user does. */
export function fairlath(args: readonly string[], cwd = root): Answer {
  const { status, stdout, stderr } = spawnSync(process.execPath, [bin, ...args], { cwd, encoding: 'utf8' });
  return { code: status, out: stdout, err: stderr };
}

export const freshFolder = (): string => mkdtempSync(join(tmpdir(), 'fairlath-'));
