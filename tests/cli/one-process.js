// One command line after another in one process, which stays: Node, the parser and the PDF writer load once.
import { fork } from 'node:child_process';
import { once } from 'node:events';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { isMainThread, workerData } from 'node:worker_threads';

const STANDARD_OUTPUT = 1;
const { writeSync } = fs;

const BIN = fileURLToPath(new URL('../../bin/fairlath.js', import.meta.url));

/** Only a command that hangs is ended by force. */
const HANGS_MS = 120_000;

/**
 * The thread beside the test: it hands each command to the process and wakes the test with the answer.
 * A thread may not change its folder, so the commands need a process; a test waits for one best in a thread.
 */
function handOver({ port, answered }) {
  let child;
  port.on('message', async (command) => {
    if (!child?.connected) child = fork(fileURLToPath(import.meta.url), { stdio: ALL_IGNORED, execArgv: [] });
    port.postMessage(await answerOf(child, command));
    Atomics.store(answered, 0, 1);
    Atomics.notify(answered, 0);
  });
}

/** Words are taken from the command's own writing, so the process needs no way out but the channel. */
const ALL_IGNORED = ['ignore', 'ignore', 'ignore', 'ipc'];

async function answerOf(child, command) {
  const over = new AbortController();
  const hangs = setTimeout(() => child.kill('SIGKILL'), HANGS_MS);
  child.send(command);
  const [answer, signal] = await Promise.race(['message', 'exit'].map((name) => once(child, name, over)));
  clearTimeout(hangs);
  over.abort();
  return answer?.out === undefined ? { code: answer, out: '', err: `ended by ${signal}` } : answer;
}

/** The built command line, from its first line to its last, with what it reads and leaves of the process set anew. */
async function run({ args, cwd, settings }) {
  const said = { out: '', err: '' };
  const hear = (where, words) => {
    said[where] += words;
    return true;
  };
  process.stdout.write = (words) => hear('out', words);
  fs.writeSync = (fd, words, ...rest) => {
    if (fd !== STANDARD_OUTPUT) return writeSync(fd, words, ...rest);
    hear('out', words);
    return words.length;
  };
  process.stderr.write = (words) => hear('err', words);
  process.argv = [process.execPath, BIN, ...args];
  process.env.XDG_CONFIG_HOME = settings;
  process.exitCode = undefined;
  process.chdir(cwd);
  const outcome = await start().catch((error) => {
    process.exitCode = 1;
    said.err += error.stack;
  });
  return { code: process.exitCode ?? 0, ...said, faults: outcome?.faults ?? [] };
}

const { start } = createRequire(import.meta.url)(BIN);

if (isMainThread) process.on('message', async (command) => process.send(await run(command)));
else handOver(workerData);
