import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';

export const root = fileURLToPath(new URL('../../', import.meta.url));
const bin = join(root, 'bin/fairlath.js');

export interface Answer {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** With the stable code and the place of each mistake. */
export interface AnswerWithFaults extends Answer {
  readonly faults: readonly { readonly code: string; readonly key?: string }[];
}

/** A folder for one test's files, inside the one that is removed at the end (see tests/one-folder.ts). */
export const freshFolder = (): string => mkdtempSync(join(process.env.FAIRLATH_TESTS ?? tmpdir(), 'own-'));

/** A folder with these files in it. */
export function folderWith(files: Readonly<Record<string, string | Buffer>>): string {
  const folder = freshFolder();
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  return folder;
}

/** The samples as the examples of the help name them, from a folder that has them or from the root of the project. */
export const LEG = 'samples/hall-bench-leg.yaml';
export const RAIL = 'samples/garden-arch-rail.yaml';
export const BRACKET = 'samples/wall-shelf-bracket.yaml';
export const MEASURED = 'samples/hall-bench-leg-measured.csv';

/** A folder with the jobs and readings of the samples. `files` lists its present content. */
export function folderWithSamples(): { readonly path: string; readonly files: () => string[] } {
  const path = freshFolder();
  cpSync(join(root, 'samples'), join(path, 'samples'), {
    recursive: true,
    filter: (from) => statSync(from).isDirectory() || /\.(yaml|csv)$/.test(from),
  });
  return { path, files: () => readdirSync(path, { recursive: true, encoding: 'utf8' }).toSorted() };
}

/** Settings of these tests alone: the user's own printers are neither read nor changed. */
const ownSettings = freshFolder();

/** Runs the built command line as a user does: a process starts, answers and ends. Half a second each. */
export function fairlathAlone(args: readonly string[], cwd = root, settings = ownSettings): Answer {
  const { status, stdout, stderr } = spawnSync(process.execPath, [bin, ...args], {
    cwd,
    env: { ...process.env, XDG_CONFIG_HOME: settings },
    encoding: 'utf8',
  });
  return { code: status, out: stdout, err: stderr };
}

/** Ends a command that hangs, on however busy a machine, ms. */
const HANGS_MS = 60_000;
/** Loaded before the program: it tells on channel 3 what the process has used. */
const usage = join(root, 'tests/bench/usage.cjs');

/** As a user runs it, with the folder's own settings: and the processor's time that it took, ms, and its memory, MB. */
export function fairlathMeasured(args: readonly string[], cwd: string) {
  const { status, signal, stdout, stderr, output } = spawnSync(
    process.execPath,
    ['--require', usage, bin, ...args],
    {
      cwd,
      env: { ...process.env, XDG_CONFIG_HOME: cwd },
      encoding: 'utf8',
      timeout: HANGS_MS,
      stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
    },
  );
  if (signal !== null) throw new Error(`fairlath ${args.join(' ')} was ended by ${signal}: ${stderr}`);
  const { cpu, memory } = JSON.parse(output[3]!) as { cpu: number; memory: number };
  return { code: status, out: stdout, err: stderr, cpu, memory };
}

type Ask = (command: object) => AnswerWithFaults;

/** A process that takes commands, behind a thread, so that the test can wait without giving way. */
function opened(): Ask {
  const { port1: port, port2 } = new MessageChannel();
  const answered = new Int32Array(new SharedArrayBuffer(4));
  new Worker(new URL('./one-process.js', import.meta.url), {
    workerData: { port: port2, answered },
    transferList: [port2],
  }).unref();
  port.unref();
  return (command) => {
    Atomics.store(answered, 0, 0);
    port.postMessage(command);
    Atomics.wait(answered, 0, 0);
    return receiveMessageOnPort(port)!.message as AnswerWithFaults;
  };
}

let ask: Ask | undefined;

/**
 * Runs the built command line in a process that stays for the next command: the same answer as
 * `fairlathAlone`, which tests/cli/one-process.test.ts proves, in a tenth of the time.
 */
export function fairlath(args: readonly string[], cwd = root, settings = ownSettings): AnswerWithFaults {
  ask ??= opened();
  return ask({ args, cwd, settings });
}
