import { writeSync } from 'node:fs';
import { errorCode, fileFault, sleep } from '../files/system-errors.ts';

const STANDARD_OUTPUT = 1;

// Loading Node's own stream would take more than a tenth of the time of a short command.

export const writeLine = (text: string): void => writeText(`${text}\n`);

export function writeText(text: string): void {
  const bytes = Buffer.from(text);
  for (let written = 0; written < bytes.length; ) written += writeChunk(bytes, written);
}

function writeChunk(bytes: Buffer, from: number): number {
  try {
    return writeSync(STANDARD_OUTPUT, bytes, from);
  } catch (error) {
    // A reader may stop early (`| head`). Then the command is done.
    if (errorCode(error) === 'EPIPE') process.exit(0);
    if (errorCode(error) !== 'EAGAIN') throw fileFault('standard output', error);
    sleep();
    return 0;
  }
}
