import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fchmodSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { MAX_JOB_BYTES } from '../../job/parse/read-yaml.ts';
import { Fault } from '../../units/fault.ts';
import { sleep } from './sleep.ts';

/** What the system's error codes mean to someone at a bench. */
const SYSTEM_ERRORS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file. Check the name and the folder.',
  EACCES: 'you may not read or write it. Check its permissions.',
  EPERM: 'you may not read or write it. Check its permissions.',
  EROFS: 'its folder cannot be written to. Choose another folder.',
  EISDIR: 'it is a folder. Name a file.',
  ENOTDIR: 'a part of its path is not a folder. Check the path.',
  ENOSPC: 'the disk is full. Make room, then try again.',
  EFBIG: 'the file would be larger than the system allows. Choose another place.',
  ELOOP: 'links lead round in a circle here. Name the file itself.',
  ENAMETOOLONG: 'its name is too long. Choose a shorter one.',
};

export function fileFault(file: string, error: unknown): Fault {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  if (file === '') return new Fault('file.failed', '"": this is no name. Name a file.');
  return new Fault(
    'file.failed',
    `${file}: ${SYSTEM_ERRORS[code] ?? `the system says ${code || String(error)}. Try another file.`}`,
  );
}

/** A file that is to be written need not be there, its folder must. */
const noFolderFault = (file: string): Fault =>
  new Fault(
    'file.no-folder',
    `${file}: there is no folder ${dirname(file)}. Make it first, or choose another place.`,
  );

/** What a step says of a file; what the system has against it is told as a fault of that file. */
function wrapError<T>(file: string, step: () => T): T {
  try {
    return step();
  } catch (error) {
    throw fileFault(file, error);
  }
}

/**
 * The text of a job file, refused before it is read when it is far too large to be one. A pipe that somebody writes to
 * is waited for; one that nobody writes to is empty.
 */
export function readText(file: string): string {
  const fd = wrapError(file, () => openSync(file, constants.O_RDONLY | constants.O_NONBLOCK));
  try {
    const bytes = Buffer.alloc(MAX_JOB_BYTES + 1);
    let size = 0;
    for (;;) {
      const got = wrapError(file, () => readChunk(fd, bytes, size));
      size += got;
      if (got === 0 || size === bytes.length) break;
    }
    return bytes.toString('utf8', 0, size);
  } finally {
    closeSync(fd);
  }
}

function readChunk(fd: number, bytes: Buffer, from: number): number {
  for (;;) {
    try {
      return readSync(fd, bytes, from, bytes.length - from, null);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
      sleep();
    }
  }
}

/** The names that other programs take for something else; who means them writes them with their folder. */
function rejectMisleadingName(file: string): void {
  const slip =
    file === '-'
      ? 'what is written goes to a file, not to standard output. Name one'
      : file.startsWith('=') && `a name follows after a space: -o ${file.slice(1)}. Type that`;
  if (slip) throw new Fault('file.not-meant', `${file}: ${slip}, or ./${file} for a file of this name.`);
}

/** What is there under a name, links not followed; undefined where there is nothing. */
export const lstatIfExists = (file: string): Stats | undefined =>
  wrapError(file, () => lstatSync(file, { throwIfNoEntry: false }));

/**
 * That an output may be written: not over an input, nor over a file that fairlath did not make. A folder, a device, a
 * pipe and a link that leads nowhere are never replaced.
 * @throws Fault `file.not-meant`, `file.is-input`, `file.exists`, `file.not-plain`, `file.failed`
 */
export function requireWritable(
  file: string,
  input: string | undefined,
  isOurs: (bytes: Buffer) => boolean,
  force: boolean,
): void {
  rejectMisleadingName(file);
  if (!lstatIfExists(file)) return;
  const found = statIfExists(file);
  if (found?.isDirectory()) throw fileFault(file, { code: 'EISDIR' });
  if (!found?.isFile()) throw new Fault('file.not-plain', `${file}: this is no ordinary file. Name one.`);
  if (input !== undefined && isSameFile(found, statIfExists(input)))
    throw new Fault(
      'file.is-input',
      `${file}: this is the file that is read, and it is never written over. Choose another name.`,
    );
  wrapError(file, () => accessSync(file, constants.W_OK));
  if (force || (found.size <= MAX_OWN_FILE_BYTES && isOurs(wrapError(file, () => readFileSync(file)))))
    return;
  throw new Fault(
    'file.exists',
    `${file}: this file exists and is not one of ours. Choose another name, or add --force to replace it.`,
  );
}

/** No pattern is as large, not even of ten thousand sheets; to look into more would take more memory than there may be. */
const MAX_OWN_FILE_BYTES = 2 ** 27;

/** Of the file itself, where a link leads to it; undefined where there is none. */
const statIfExists = (file: string): Stats | undefined =>
  wrapError(file, () => statSync(file, { throwIfNoEntry: false }));

const isSameFile = (a: Stats, b: Stats | undefined): boolean => a.ino === b?.ino && a.dev === b.dev;

/** Writes a file whole or not at all: aside in the same folder, then renamed over the old one. */
export const writeFileAtomic = (file: string, bytes: Uint8Array | string): void =>
  streamFileAtomic(file, (write) => write(bytes));

/** Chunks kept in memory before an aside is begun: a run that is killed leaves none but of a pattern of a thousand sheets. */
const MAX_BUFFERED_BYTES = 2 ** 22;

/**
 * The same in chunks: `work` is given what writes the next. The file appears when it is done; a fault of
 * `work` itself leaves nothing behind and is passed on as it is. Where a link leads, there the file is replaced;
 * who may read and write it stays as it was.
 */
export function streamFileAtomic(
  file: string,
  work: (write: (chunk: Uint8Array | string) => void) => void,
): void {
  if (!existsSync(dirname(file))) throw noFolderFault(file);
  const target = existsSync(file) ? realpathSync(file) : file;
  const mode = statIfExists(target)?.mode;
  const begin = `.${[...basename(target)].slice(0, TEMP_NAME_LETTERS).join('')}.`;
  const tempFile = join(dirname(target), `${begin}${process.pid}-${Date.now()}.part`);
  let fd: number | undefined;
  let buffered: (Uint8Array | string)[] = [];
  let size = 0;
  const write = (): void => {
    if (fd === undefined) {
      fd = openSync(tempFile, 'wx');
      if (mode !== undefined) fchmodSync(fd, mode);
    }
    for (const chunk of buffered) writeFileSync(fd, chunk);
    buffered = [];
    size = 0;
  };
  try {
    try {
      work((chunk) => {
        buffered.push(chunk);
        size += chunk.length;
        if (size > MAX_BUFFERED_BYTES) wrapError(file, write);
      });
      wrapError(file, write);
    } finally {
      if (fd !== undefined) closeSync(fd);
    }
    wrapError(file, () => renameSync(tempFile, target));
  } catch (error) {
    rmSync(tempFile, { force: true });
    throw error;
  }
  removeStaleTempFiles(dirname(target), begin);
}

/** So many letters of a file's name go into its aside's: names end at 255 bytes, and a letter may take four. */
const TEMP_NAME_LETTERS = 40;

/** No write takes as long, ms: an aside older than this is left of a run that was killed. */
const STALE_MS = 3_600_000;

/** Removes what killed runs have left beside a file of the same name, as far as it may: it is not what was asked for. */
function removeStaleTempFiles(folder: string, begin: string): void {
  const isAside = (name: string): boolean =>
    name.startsWith(begin) && /^\d+-\d+\.part$/.test(name.slice(begin.length));
  try {
    for (const path of readdirSync(folder)
      .filter(isAside)
      .map((name) => join(folder, name)))
      if (Date.now() - statSync(path).mtimeMs > STALE_MS) rmSync(path);
  } catch {
    // Another's file in a folder of all, a folder that may not be read, one that is swept by two at once.
  }
}

/** Writes a file that must not exist yet, whole or not at all. A link that leads nowhere is there, too. */
export function writeNewFile(file: string, text: string): void {
  mustBeNew(file);
  writeFileAtomic(file, text);
}

/** @throws Fault `file.exists`, or what `mustBeMeant` throws */
export function mustBeNew(file: string): void {
  rejectMisleadingName(file);
  if (lstatIfExists(file))
    throw new Fault(
      'file.exists',
      `${file}: this file exists, and new never overwrites. Choose another name.`,
    );
}

/** Alone: asked for all folders of a path, Node tries without end where the system has nothing to make them in. */
export function makeFolder(folder: string): void {
  try {
    mkdirSync(folder);
  } catch (error) {
    if (!existsSync(folder)) throw fileFault(folder, error);
  }
}
