import { writeSync } from 'node:fs';
import { errorCode, fileFault, sleep } from '../files/system-errors.ts';

const STANDARD_OUTPUT = 1;

// Node's own stream is not used: to load it takes longer than a tenth of a short command.

export const writeLine = (text: string): void => writeText(`${text}\n`);

export function writeText(text: string): void {
  const bytes = Buffer.from(text);
  for (let written = 0; written < bytes.length; ) written += writeChunk(bytes, written);
}

function writeChunk(bytes: Buffer, from: number): number {
  try {
    return writeSync(STANDARD_OUTPUT, bytes, from);
  } catch (error) {
    // A reader that stops early (`| head`) is no mistake: the command is done.
    if (errorCode(error) === 'EPIPE') process.exit(0);
    if (errorCode(error) !== 'EAGAIN') throw fileFault('standard output', error);
    sleep();
    return 0;
  }
}
