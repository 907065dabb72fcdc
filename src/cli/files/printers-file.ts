import { homedir } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';
import { type KnownPrinter, readPrinters, withPrinter } from '../../tiling/paper/known-printers.ts';
import { Fault } from '../../units/fault.ts';
import { plainSpeaker, speakingOf } from '../output/report-errors.ts';
import { makeFolder, readText, whatIsAt, writeWhole } from './atomic-files.ts';
import { alone } from './file-lock.ts';

/**
 * Where the measured printers are kept: fairlath/printers.yaml in the user's settings folder
 * (XDG Base Directory Specification: a folder that is not absolute is passed over).
 * @throws Fault `printers.no-home`
 */
export function printersFile(): string {
  const folder = process.env.XDG_CONFIG_HOME;
  const settings = folder && isAbsolute(folder) ? folder : join(homeFolder(), '.config');
  return join(settings, 'fairlath', 'printers.yaml');
}

/** Node gives what HOME says, be it nothing, and throws where nobody knows the user. */
function homeFolder(): string {
  try {
    const home = homedir();
    if (isAbsolute(home)) return home;
  } catch {
    // Told below.
  }
  throw new Fault(
    'printers.no-home',
    'nobody says where your settings are kept. Set HOME, or XDG_CONFIG_HOME, to a folder by its whole path.',
  );
}

const textOf = (file: string): string => (whatIsAt(file) ? readText(file) : '');

const printersIn = (file: string, text: string): KnownPrinter[] =>
  speakingOf({ ...plainSpeaker, file }, () => readPrinters(text));

/** The printers measured so far; a file that cannot be read right through is told, never passed over. */
export const knownPrinters = (): KnownPrinter[] => printersIn(printersFile(), textOf(printersFile()));

/** Keeps one printer beside the others; a file with mistakes in it is left as it is. */
export function keepPrinter(printer: KnownPrinter): void {
  const file = printersFile();
  const folder = dirname(file);
  makeFolder(dirname(folder));
  makeFolder(folder);
  alone(file, () => {
    const text = textOf(file);
    printersIn(file, text);
    writeWhole(file, withPrinter(text, printer));
  });
}
