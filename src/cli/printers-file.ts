import { existsSync, mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';
import { type KnownPrinter, readPrinters, withPrinter } from '../tiling/printers.ts';
import { ofFile, readText, writeWhole } from './files.ts';
import { plainSpeaker, speakingOf } from './report.ts';

/**
 * Where the measured printers are kept: fairlath/printers.yaml in the user's settings folder
 * (XDG Base Directory Specification: a folder that is not absolute is passed over).
 */
export function printersFile(): string {
  const folder = process.env.XDG_CONFIG_HOME;
  const settings = folder && isAbsolute(folder) ? folder : join(homedir(), '.config');
  return join(settings, 'fairlath', 'printers.yaml');
}

const textOf = (file: string): string => (existsSync(file) ? readText(file) : '');

const printersIn = (file: string, text: string): KnownPrinter[] =>
  speakingOf({ ...plainSpeaker, file }, () => readPrinters(text));

/** The printers measured so far; a file that cannot be read right through is told, never passed over. */
export const knownPrinters = (): KnownPrinter[] => printersIn(printersFile(), textOf(printersFile()));

/** Keeps one printer beside the others; a file with mistakes in it is left as it is. */
export function keepPrinter(printer: KnownPrinter): void {
  const file = printersFile();
  const text = textOf(file);
  printersIn(file, text);
  try {
    mkdirSync(dirname(file), { recursive: true });
  } catch (error) {
    throw ofFile(dirname(file), error);
  }
  writeWhole(file, withPrinter(text, printer));
}
