import { writeSync } from 'node:fs';
import { sleep } from '../files/sleep.ts';
import { errorCode, fileFault } from '../files/system-errors.ts';

const STANDARD_OUTPUT = 1;

/**
 * Writes a line to standard output. All of it has been written when this returns. Node's own stream is not used: to
 * load it takes longer than a tenth of a short command.
 *
 * @throws Fault `file.failed` where standard output goes to a file that cannot take the text
 */
export const writeLine = (text: string): void => writeText(`${text}\n`);

/** Writes a text that ends its own lines. */
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
