import { Fault } from '../../units/fault.ts';

const NOT_PERMITTED = 'you do not have permission to read or write this file. Check its permissions.';

const SYSTEM_ERRORS: Readonly<Record<string, string>> = {
  ENOENT: 'this file does not exist. Check the name and the folder.',
  EACCES: NOT_PERMITTED,
  EPERM: NOT_PERMITTED,
  EROFS: 'this folder is read-only. Choose another folder.',
  EISDIR: 'this is a folder, not a file. Give the name of a file.',
  ENOTDIR: 'a part of the path is not a folder. Check the path.',
  ENOSPC: 'the disk is full. Free some space, then try again.',
  EFBIG: 'the file is larger than the system allows. Choose another disk.',
  ELOOP: 'this link leads back to itself. Give the name of the real file.',
  ENAMETOOLONG: 'the name is too long. Choose a shorter name.',
};

export function fileFault(file: string, error: unknown): Fault {
  const code = errorCode(error) ?? '';
  if (file === '') return new Fault('file.failed', 'the file name is empty. Give a file name.');
  const wording = `${file}: ${SYSTEM_ERRORS[code] ?? `the system reports ${code || String(error)}. Try another file.`}`;
  return new Fault('file.failed', wording);
}

export const errorCode = (error: unknown): string | undefined => (error as NodeJS.ErrnoException).code;

export function wrapError<T>(file: string, step: () => T): T {
  try {
    return step();
  } catch (error) {
    throw fileFault(file, error);
  }
}

/** Pause before the next attempt at a full or an empty pipe, ms. */
const PIPE_PAUSE_MS = 5;

/** Waits and blocks the thread, ms. */
export const sleep = (ms = PIPE_PAUSE_MS): void =>
  void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
