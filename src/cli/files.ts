import {
  closeSync,
  existsSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { MAX_JOB_BYTES } from '../job/parse-job.ts';
import { Fault } from '../units/fault.ts';

/** What the system's error codes mean to someone at a bench. */
const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file. Check the name and the folder.',
  EACCES: 'you may not read or write it. Check its permissions.',
  EPERM: 'you may not read or write it. Check its permissions.',
  EROFS: 'its folder cannot be written to. Choose another folder.',
  EISDIR: 'it is a folder. Name a file.',
  ENOTDIR: 'a part of its path is not a folder. Check the path.',
  ENOSPC: 'the disk is full. Make room, then try again.',
  EFBIG: 'the file would be larger than the system allows. Choose another place.',
  ENAMETOOLONG: 'its name is too long. Choose a shorter one.',
};

export function ofFile(file: string, error: unknown): Fault {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return new Fault(
    'file.failed',
    `${file}: ${REASONS[code] ?? `the system says ${code || String(error)}. Try another file.`}`,
  );
}

/** A file that is to be written need not be there, its folder must. */
const noFolder = (file: string): Fault =>
  new Fault(
    'file.no-folder',
    `${file}: there is no folder ${dirname(file)}. Make it first, or choose another place.`,
  );

/** The text of a job file, refused before it is read when it is far too large to be one. */
export function readText(file: string): string {
  let fd: number | undefined;
  try {
    fd = openSync(file, 'r');
    const bytes = Buffer.alloc(MAX_JOB_BYTES + 1);
    let size = 0;
    for (;;) {
      const got = readSync(fd, bytes, size, bytes.length - size, null);
      size += got;
      if (got === 0 || size === bytes.length) break;
    }
    return bytes.toString('utf8', 0, size);
  } catch (error) {
    throw ofFile(file, error);
  } finally {
    if (fd !== undefined) closeSync(fd);
  }
}

/**
 * That an output may be written: not over an input, nor over a file that fairlath did not make.
 * @throws Fault `file.is-input`, `file.exists`
 */
export function mustBeFree(
  file: string,
  input: string | undefined,
  isOurs: (bytes: Buffer) => boolean,
  force: boolean,
): void {
  if (input !== undefined && sameFile(file, input))
    throw new Fault(
      'file.is-input',
      `${file}: this is the file that is read, and it is never written over. Choose another name.`,
    );
  if (force || !existsSync(file)) return;
  const found = statSync(file);
  if (found.isDirectory()) throw ofFile(file, { code: 'EISDIR' });
  // A pipe or a device would be waited for without end.
  if (!found.isFile()) throw new Fault('file.not-plain', `${file}: this is no ordinary file. Name one.`);
  if (!isOurs(readFileSync(file)))
    throw new Fault(
      'file.exists',
      `${file}: this file exists and is not one of ours. Choose another name, or add --force to replace it.`,
    );
}

function sameFile(a: string, b: string): boolean {
  if (resolve(a) === resolve(b)) return true;
  if (!existsSync(a) || !existsSync(b)) return false;
  const [one, other] = [statSync(a), statSync(b)];
  return one.ino === other.ino && one.dev === other.dev;
}

/** Writes a file whole or not at all: aside in the same folder, then renamed over the old one. */
export const writeWhole = (file: string, bytes: Uint8Array | string): void =>
  streamWhole(file, (write) => write(bytes));

/**
 * The same in chunks: `work` is given what writes the next. The file appears when it is done; a fault of
 * `work` itself leaves nothing behind and is passed on as it is.
 */
export function streamWhole(file: string, work: (write: (chunk: Uint8Array | string) => void) => void): void {
  const begin = `.${basename(file).slice(0, 100)}.`;
  const aside = join(dirname(file), `${begin}${process.pid}-${Date.now()}.part`);
  const told = <T>(step: () => T): T => {
    try {
      return step();
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') throw noFolder(file);
      throw ofFile(file, error);
    }
  };
  const fd = told(() => openSync(aside, 'wx'));
  try {
    try {
      work((chunk) => told(() => writeFileSync(fd, chunk)));
    } finally {
      closeSync(fd);
    }
    told(() => renameSync(aside, file));
  } catch (error) {
    rmSync(aside, { force: true });
    throw error;
  }
  sweep(dirname(file), begin);
}

/** No write takes as long, ms: an aside older than this is left of a run that was killed. */
const STALE_MS = 3_600_000;

/** Removes what killed runs have left beside a file of the same name. */
function sweep(folder: string, begin: string): void {
  const isAside = (name: string): boolean =>
    name.startsWith(begin) && /^\d+-\d+\.part$/.test(name.slice(begin.length));
  for (const name of namesIn(folder).filter(isAside)) {
    const path = join(folder, name);
    const written = statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? Number.POSITIVE_INFINITY;
    if (Date.now() - written > STALE_MS) rmSync(path, { force: true });
  }
}

/** None in a folder that may be written to but not read. */
function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

/** Writes a file that must not exist yet, whole or not at all. */
export function writeNew(file: string, text: string): void {
  if (existsSync(file))
    throw new Fault(
      'file.exists',
      `${file}: this file exists, and new never overwrites. Choose another name.`,
    );
  writeWhole(file, text);
}
