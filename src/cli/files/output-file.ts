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

/** Refuses to write over an input or a file that fairlath did not write, or under another kind of file's ending. */
export function requireOutput(file: string, rules: OutputRules): void {
  requireReplaceable(file, rules);
  requireEnding(file, rules.ending);
}

function requireReplaceable(file: string, { ending, inputs, force }: OutputRules): void {
  rejectMisleadingName(file);
  if (!lstatIfExists(file)) return;
  const found = statIfExists(file);
  if (found?.isDirectory()) throw fileFault(file, { code: 'EISDIR' });
  if (!found?.isFile()) throw new Fault('file.not-plain', `${file}: this is no ordinary file. Name one.`);
  if (inputs.some((input) => input !== undefined && isSameFile(found, statIfExists(input))))
    throw new Fault(
      'file.is-input',
      `${file}: this is the file that is read, and it is never written over. Choose another name.`,
    );
  wrapError(file, () => accessSync(file, constants.W_OK));
  if (force || (found.size <= MAX_OWN_FILE_BYTES && isOwnFile(file, ending))) return;
  const wording = `${file}: this file exists and is not one of ours. Choose another name, or add --force to replace it.`;
  throw new Fault('file.exists', wording);
}

/** No pattern is as large, not even of ten thousand sheets. To read more could take more memory than there is. */
const MAX_OWN_FILE_BYTES = 2 ** 27;

/** Tells by its content whether fairlath wrote a file. A job is the user's from the moment that it is written. */
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
    const wording = `${file}: this file exists, and new never overwrites. Choose another name.`;
    throw new Fault('file.exists', wording);
  }
}

/** Refuses the names that other programs take for something else. With its folder such a name is plain. */
function rejectMisleadingName(file: string): void {
  const reason =
    file === '-'
      ? 'what is written goes to a file, not to standard output. Name one'
      : file.startsWith('=') && `a name follows after a space: -o ${file.slice(1)}. Type that`;
  if (reason) throw new Fault('file.not-meant', `${file}: ${reason}, or ./${file} for a file of this name.`);
}

/** A program that opens files by their ending would not open one with another. A name without an ending is fine. */
function requireEnding(file: string, ending: OutputEnding): void {
  const found = extname(file).toLowerCase();
  if ((ending !== '.pdf' && ending !== '.svg') || found === ending || found === '') return;
  const elsewhere =
    ending === '.pdf' && (found === '.svg' || found === '.dxf')
      ? ` The whole part as ${found.slice(1).toUpperCase()}: fairlath draw.`
      : '';
  const wording = `${file}: what is written is ${ending === '.pdf' ? 'a PDF' : 'an SVG'}. Name a file ending in ${ending}.${elsewhere}`;
  throw new Fault('file.other-kind', wording);
}

export const lstatIfExists = (file: string): Stats | undefined =>
  wrapError(file, () => lstatSync(file, { throwIfNoEntry: false }));

export const statIfExists = (file: string): Stats | undefined =>
  wrapError(file, () => statSync(file, { throwIfNoEntry: false }));

const isSameFile = (a: Stats, b: Stats | undefined): boolean => a.ino === b?.ino && a.dev === b.dev;
