import * as fs from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Drawing } from '../../export/drawing/drawing.ts';
import { Fault } from '../../units/fault.ts';
import { requireNewFile, requireOutput, statIfExists } from './output-file.ts';
import { fileFault, wrapError } from './system-errors.ts';

type Chunk = Uint8Array | string;

export const writeFileAtomic = (file: string, bytes: Chunk): void =>
  streamFileAtomic(file, (write) => write(bytes));

export function writeNewFile(file: string, text: string): void {
  requireNewFile(file);
  writeFileAtomic(file, text);
}

/** Chunks kept in memory before there is a temporary file. Only a pattern of a thousand sheets needs one before its end. */
const MAX_BUFFERED_BYTES = 2 ** 22;

/** Writes a file completely or not at all: first a temporary file beside it, which is renamed when `work` is done. */
export function streamFileAtomic(file: string, work: (write: (chunk: Chunk) => void) => void): void {
  if (!fs.existsSync(dirname(file))) {
    const wording = `${file}: there is no folder ${dirname(file)}. Make it first, or choose another place.`;
    throw new Fault('file.no-folder', wording);
  }
  const target = fs.existsSync(file) ? fs.realpathSync(file) : file;
  const mode = statIfExists(target)?.mode;
  const prefix = `.${[...basename(target)].slice(0, TEMP_NAME_LETTERS).join('')}.`;
  const tempFile = join(dirname(target), `${prefix}${process.pid}-${Date.now()}.part`);
  let fd: number | undefined;
  let buffered: Chunk[] = [];
  let size = 0;
  const write = (): void => {
    if (fd === undefined) {
      fd = fs.openSync(tempFile, 'wx');
      if (mode !== undefined) fs.fchmodSync(fd, mode);
    }
    for (const chunk of buffered) fs.writeFileSync(fd, chunk);
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
      if (fd !== undefined) fs.closeSync(fd);
    }
    wrapError(file, () => fs.renameSync(tempFile, target));
  } catch (error) {
    fs.rmSync(tempFile, { force: true });
    throw error;
  }
  removeStaleTempFiles(dirname(target), prefix);
}

/** The letters of a file's name in its temporary file's: a name has at most 255 bytes, and a letter may take four. */
const TEMP_NAME_LETTERS = 40;

/** No write takes as long, ms: an older temporary file is left from a run that was killed. */
const STALE_TEMP_MS = 3_600_000;

function removeStaleTempFiles(folder: string, prefix: string): void {
  const isTemp = (name: string): boolean =>
    name.startsWith(prefix) && /^\d+-\d+\.part$/.test(name.slice(prefix.length));
  try {
    for (const name of fs.readdirSync(folder).filter(isTemp)) {
      const path = join(folder, name);
      if (Date.now() - fs.statSync(path).mtimeMs > STALE_TEMP_MS) fs.rmSync(path);
    }
  } catch {
    // Nobody asked for it: the file is another user's, the folder cannot be read, or two runs clean up at once.
  }
}

/** Makes one folder. For all folders of a path Node tries without end where the system has no room for them. */
export function makeFolder(folder: string): void {
  try {
    fs.mkdirSync(folder);
  } catch (error) {
    if (!fs.existsSync(folder)) throw fileFault(folder, error);
  }
}

/** Writes the picture that --picture names, if any. The code that draws it is loaded only then. */
export async function writePicture(
  { picture, force }: { readonly picture?: string; readonly force?: boolean },
  inputs: readonly (string | undefined)[],
  title: string,
  compose: () => Promise<Drawing>,
): Promise<void> {
  if (picture === undefined) return;
  requireOutput(picture, { ending: '.svg', inputs, force });
  const { writeSvg } = await import('../../export/writers/svg.ts');
  writeFileAtomic(picture, writeSvg(await compose(), title));
}
