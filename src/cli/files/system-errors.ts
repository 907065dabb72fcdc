import { Fault } from '../../units/fault.ts';

/** The system's error codes in the words of the user. */
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

/** What the system has against a file, as a fault. */
export function fileFault(file: string, error: unknown): Fault {
  const code = errorCode(error) ?? '';
  if (file === '') return new Fault('file.failed', '"": this is no name. Name a file.');
  return new Fault(
    'file.failed',
    `${file}: ${SYSTEM_ERRORS[code] ?? `the system says ${code || String(error)}. Try another file.`}`,
  );
}

export const errorCode = (error: unknown): string | undefined => (error as NodeJS.ErrnoException).code;

/** Does one step with a file. An error of the system is thrown as a fault of that file. */
export function wrapError<T>(file: string, step: () => T): T {
  try {
    return step();
  } catch (error) {
    throw fileFault(file, error);
  }
}
