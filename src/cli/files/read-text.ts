import { closeSync, constants, openSync, readFileSync, readSync } from 'node:fs';
import { createRequire } from 'node:module';
import { MAX_JOB_BYTES } from '../../job/parse/read-yaml.ts';
import type { FontSubset } from '../../units/font-tables.ts';
import { errorCode, sleep, wrapError } from './system-errors.ts';

/** Reads at most the size of a job. Waits for a pipe that has a writer. A pipe without a writer is empty. */
export function readText(file: string): string {
  const fd = wrapError(file, () => openSync(file, constants.O_RDONLY | constants.O_NONBLOCK));
  try {
    const bytes = Buffer.alloc(MAX_JOB_BYTES + 1);
    let size = 0;
    for (;;) {
      const got = wrapError(file, () => readChunk(fd, bytes, size));
      size += got;
      if (got === 0 || size === bytes.length) return bytes.toString('utf8', 0, size);
    }
  } finally {
    closeSync(fd);
  }
}

function readChunk(fd: number, bytes: Buffer, from: number): number {
  for (;;) {
    try {
      return readSync(fd, bytes, from, bytes.length - from, null);
    } catch (error) {
      if (errorCode(error) !== 'EAGAIN') throw error;
      sleep();
    }
  }
}

/** A file of Source Sans 3 (SIL Open Font License), from the package that carries it. */
export const loadFont = (subset: FontSubset): Uint8Array =>
  readFileSync(
    createRequire(import.meta.url).resolve(
      `@fontsource/source-sans-3/files/source-sans-3-${subset}-400-normal.woff`,
    ),
  );
