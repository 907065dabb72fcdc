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

/** Bytes kept in memory before a temporary file is opened. A pattern needs a thousand sheets to reach it. */
const MAX_BUFFERED_BYTES = 2 ** 22;

/** Writes a file completely or not at all: first a temporary file beside it, which is renamed when `work` is done. */
export function streamFileAtomic(file: string, work: (write: (chunk: Chunk) => void) => void): void {
  if (!fs.existsSync(dirname(file))) {
    const wording = `${file}: the folder ${dirname(file)} does not exist. Make it first, or choose another folder.`;
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

/** A temporary file repeats this many letters of the name: a name has at most 255 bytes, a letter up to four. */
const TEMP_NAME_LETTERS = 40;

/** Longer than any write, ms. An older temporary file is left from a run that was killed. */
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
    // Cleaning up is optional: the file may be another user's, or two runs may clean up at once.
  }
}

/** Makes one folder. Node's recursive option loops forever if the disk has no room. */
export function makeFolder(folder: string): void {
  try {
    fs.mkdirSync(folder);
  } catch (error) {
    if (!fs.existsSync(folder)) throw fileFault(folder, error);
  }
}

/** Writes the picture that --picture names, if any. The drawing code is loaded only in that case. */
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
