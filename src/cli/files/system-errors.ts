import { Fault } from '../../units/fault.ts';

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
  const code = errorCode(error) ?? '';
  if (file === '') return new Fault('file.failed', '"": this is no name. Name a file.');
  const wording = `${file}: ${SYSTEM_ERRORS[code] ?? `the system says ${code || String(error)}. Try another file.`}`;
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

/** How long a full or an empty pipe is left alone before the next attempt, ms. */
const PIPE_PAUSE_MS = 5;

/** Waits without giving way, ms. */
export const sleep = (ms = PIPE_PAUSE_MS): void =>
  void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
