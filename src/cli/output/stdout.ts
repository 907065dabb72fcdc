import { writeSync } from 'node:fs';
import { fileFault } from '../files/atomic-files.ts';
import { sleep } from '../files/sleep.ts';

const STANDARD_OUTPUT = 1;

/**
 * Says a text and ends its line, where the command's words go. All of it has been written when this returns:
 * by itself, as what Node loads to write to its own stream takes longer than a tenth of a short command.
 *
 * @throws Fault `file.failed` where the words go to a file that cannot take them
 */
export const writeLine = (text: string): void => writeText(`${text}\n`);

/** The same for a text that has its own ends of lines. */
export function writeText(text: string): void {
  const bytes = Buffer.from(text);
  for (let said = 0; said < bytes.length; ) said += writeChunk(bytes, said);
}

function writeChunk(bytes: Buffer, from: number): number {
  try {
    return writeSync(STANDARD_OUTPUT, bytes, from);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    // A reader that stops early (`| head`) is no fault of anyone's.
    if (code === 'EPIPE') process.exit(0);
    if (code !== 'EAGAIN') throw fileFault('standard output', error);
    sleep();
    return 0;
  }
}
