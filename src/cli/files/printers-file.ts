import { homedir } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';
import { addPrinter, type KnownPrinter, readPrinters } from '../../tiling/paper/known-printers.ts';
import { Fault } from '../../units/fault.ts';
import { plainContext, withFaultContext } from '../output/report-errors.ts';
import { lstatIfExists, makeFolder, readText, writeFileAtomic } from './atomic-files.ts';
import { withLock } from './file-lock.ts';

/**
 * Where the measured printers are kept: fairlath/printers.yaml in the user's settings folder
 * (XDG Base Directory Specification: a folder that is not absolute is passed over).
 * @throws Fault `printers.no-home`
 */
export function printersFilePath(): string {
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

const readIfExists = (file: string): string => (lstatIfExists(file) ? readText(file) : '');

const parsePrintersFile = (file: string, text: string): KnownPrinter[] =>
  withFaultContext({ ...plainContext, file }, () => readPrinters(text));

/** The printers measured so far; a file that cannot be read right through is told, never passed over. */
export const knownPrinters = (): KnownPrinter[] =>
  parsePrintersFile(printersFilePath(), readIfExists(printersFilePath()));

/** Keeps one printer beside the others; a file with mistakes in it is left as it is. */
export function savePrinter(printer: KnownPrinter): void {
  const file = printersFilePath();
  const folder = dirname(file);
  makeFolder(dirname(folder));
  makeFolder(folder);
  withLock(file, () => {
    const text = readIfExists(file);
    parsePrintersFile(file, text);
    writeFileAtomic(file, addPrinter(text, printer));
  });
}
