import { accessSync, constants, lstatSync, readFileSync, type Stats, statSync } from 'node:fs';
import { extname } from 'node:path';
import { Fault } from '../../units/fault.ts';
import { fileFault, wrapError } from './system-errors.ts';

type OutputEnding = '.pdf' | '.svg' | '.dxf' | '.yaml';

interface OutputRules {
  readonly ending: OutputEnding;
  readonly inputs: readonly (string | undefined)[];
  readonly force: boolean | undefined;
}

/** Refuses to replace an input or a file that fairlath did not write, and an ending of another kind of file. */
export function requireOutput(file: string, rules: OutputRules): void {
  requireReplaceable(file, rules);
  requireEnding(file, rules.ending);
}

function requireReplaceable(file: string, { ending, inputs, force }: OutputRules): void {
  rejectMisleadingName(file);
  if (!lstatIfExists(file)) return;
  const found = statIfExists(file);
  if (found?.isDirectory()) throw fileFault(file, { code: 'EISDIR' });
  if (!found?.isFile())
    throw new Fault('file.not-plain', `${file}: this is not an ordinary file. Choose another name.`);
  if (inputs.some((input) => input !== undefined && isSameFile(found, statIfExists(input))))
    throw new Fault(
      'file.is-input',
      `${file}: this command reads this file, so it cannot write it too. Choose another name.`,
    );
  wrapError(file, () => accessSync(file, constants.W_OK));
  if (force || (found.size <= MAX_OWN_FILE_BYTES && isOwnFile(file, ending))) return;
  const reason = ending === '.yaml' ? 'this file exists' : 'fairlath did not write this file';
  const wording = `${file}: ${reason}. Choose another name, or add --force to replace it.`;
  throw new Fault('file.exists', wording);
}

/** Larger than a pattern of ten thousand sheets. Reading a larger file could take too much memory. */
const MAX_OWN_FILE_BYTES = 2 ** 27;

/** Whether fairlath wrote a file, judged by its content. A written job belongs to the user at once. */
const IS_OWN_FILE: Readonly<Record<OutputEnding, (bytes: Buffer) => boolean>> = {
  '.pdf': isOwnPdf,
  '.svg': (bytes) => bytes.includes('<desc>Drawn by fairlath.'),
  '.dxf': (bytes) => /^\s*999\r?\nDrawn by fairlath\./.test(bytes.toString('latin1', 0, 80)),
  '.yaml': () => false,
};

function isOwnPdf(bytes: Buffer): boolean {
  const text = bytes.toString('latin1');
  const producer = /\/Producer (\d+) 0 R/.exec(text)?.[1];
  return text.startsWith('%PDF-') && new RegExp(`\\n${producer} 0 obj\\s*\\(fairlath\\)`).test(text);
}

const isOwnFile = (file: string, ending: OutputEnding): boolean =>
  IS_OWN_FILE[ending](wrapError(file, () => readFileSync(file)));

export function requireNewFile(file: string): void {
  rejectMisleadingName(file);
  if (lstatIfExists(file)) {
    const wording = `${file}: this file exists, and "new" never replaces a file. Choose another name.`;
    throw new Fault('file.exists', wording);
  }
}

/** Refuses names that have a special meaning for other programs. With a folder before it, the name is plain. */
function rejectMisleadingName(file: string): void {
  const reason =
    file === '-'
      ? 'fairlath writes to a file, not to standard output. Give a file name'
      : file.startsWith('=') && `a name follows its option after a space. Type -o ${file.slice(1)}`;
  if (reason)
    throw new Fault('file.not-meant', `${file}: ${reason}, or ./${file} for a file with this name.`);
}

/** Programs open a file by its ending, so it must be the right one. A name without an ending is fine. */
function requireEnding(file: string, ending: OutputEnding): void {
  const found = extname(file).toLowerCase();
  if ((ending !== '.pdf' && ending !== '.svg') || found === ending || found === '') return;
  const elsewhere =
    ending === '.pdf' && (found === '.svg' || found === '.dxf')
      ? ` For the whole part as ${found.slice(1).toUpperCase()}, use "fairlath draw".`
      : '';
  const wording = `${file}: this option writes ${ending === '.pdf' ? 'a PDF' : 'an SVG'}. Give a name that ends in ${ending}.${elsewhere}`;
  throw new Fault('file.other-kind', wording);
}

export const lstatIfExists = (file: string): Stats | undefined =>
  wrapError(file, () => lstatSync(file, { throwIfNoEntry: false }));

export const statIfExists = (file: string): Stats | undefined =>
  wrapError(file, () => statSync(file, { throwIfNoEntry: false }));

const isSameFile = (a: Stats, b: Stats | undefined): boolean => a.ino === b?.ino && a.dev === b.dev;
