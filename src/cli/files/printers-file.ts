import { homedir } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';
import { addPrinter, type KnownPrinter, readPrinters } from '../../tiling/paper/known-printers.ts';
import { Fault } from '../../units/fault.ts';
import { plainContext, withFaultContext } from '../output/report-errors.ts';
import { makeFolder, writeFileAtomic } from './atomic-write.ts';
import { withLock } from './file-lock.ts';
import { lstatIfExists } from './output-file.ts';
import { readText } from './read-text.ts';

/** In the user's settings folder (XDG Base Directory Specification: a folder that is not absolute is ignored). */
export function printersFilePath(): string {
  const folder = process.env.XDG_CONFIG_HOME;
  const settings = folder && isAbsolute(folder) ? folder : join(homeFolder(), '.config');
  return join(settings, 'fairlath', 'printers.yaml');
}

/** Node returns HOME even if it is empty, and throws if the system does not know the user. */
function homeFolder(): string {
  try {
    const home = homedir();
    if (isAbsolute(home)) return home;
  } catch {
    // The mistake is reported below.
  }
  const wording =
    'the folder for your settings is unknown. Set HOME or XDG_CONFIG_HOME to the full path of a folder.';
  throw new Fault('printers.no-home', wording);
}

function readPrintersFile(file: string) {
  const text = lstatIfExists(file) ? readText(file) : '';
  return { text, printers: withFaultContext({ ...plainContext, file }, () => readPrinters(text)) };
}

export const knownPrinters = (): KnownPrinter[] => readPrintersFile(printersFilePath()).printers;

/** A file with mistakes stays as it is. */
export function savePrinter(printer: KnownPrinter): void {
  const file = printersFilePath();
  const folder = dirname(file);
  makeFolder(dirname(folder));
  makeFolder(folder);
  withLock(file, () => writeFileAtomic(file, addPrinter(readPrintersFile(file).text, printer)));
}
