import { parseDocument } from 'yaml';
import { Diagnostics } from '../../job/job-faults.ts';
import { didYouMean } from '../../job/parse/did-you-mean.ts';
import { readYaml } from '../../job/parse/read-yaml.ts';
import { type NamedNode, YamlMapping } from '../../job/parse/yaml-mapping.ts';
import { Fault } from '../../units/fault.ts';
import { trimmed } from '../../units/number-format.ts';
import { quoted } from '../../units/quoted.ts';
import { type PrinterScale, parseScale } from './printer-scale.ts';

export interface KnownPrinter extends PrinterScale {
  readonly name: string;
}

const HEADING = [
  ' The scale of each printer: the printed length as a share of the true length, across and down the paper.',
  ' Written by "fairlath printer set" from the lines measured on the page of "fairlath printer sheet".',
].join('\n');

const CURE = 'Write across and down under each printer, such as "across: 99.7%".';

/** The printers of a list as kept in a file. @throws JobFaults every mistake, with its line and column */
export function readPrinters(text: string): KnownPrinter[] {
  if (text.split('\n').every((line) => /^\s*(#|$)/.test(line))) return [];
  const findings = new Diagnostics();
  const root = readYaml(text, { name: 'list of printers', lists: CURE }, findings);
  const mapping = root && YamlMapping.of(root, CURE);
  const printers = mapping?.entries.map(readPrinter);
  findings.throwIfAny();
  return (printers ?? []).filter((printer) => printer !== undefined);
}

function readPrinter({ name, node }: NamedNode): KnownPrinter | undefined {
  const table = YamlMapping.of(node, CURE);
  if (!table) return undefined;
  node.attempt(() => validatePrinterName(name));
  table.rejectUnknownKeys(['across', 'down']);
  const scale = (side: 'across' | 'down'): number | undefined => {
    const value = table.require(side, `Write "${side}: 99.7%", or run "fairlath printer set".`);
    const typed = value?.text('Write a share such as 99.7%.');
    return typed === undefined ? undefined : value?.attempt(() => parseScale(typed));
  };
  const [across, down] = [scale('across'), scale('down')];
  return across === undefined || down === undefined ? undefined : { name, across, down };
}

const NAME = /^[\p{L}\p{N}](?:[\p{L}\p{N} ._-]{0,38}[\p{L}\p{N}])?$/u;

export function validatePrinterName(name: string): void {
  if (!NAME.test(name))
    throw new Fault(
      'printer.name',
      `${quoted(name)} is not a name for a printer. Use up to 40 letters, digits, dots, dashes or spaces, such as shop-laser.`,
    );
}

/** The text with one printer added or replaced; all else stays, comments too. */
export function addPrinter(text: string, { name, across, down }: KnownPrinter): string {
  const document = parseDocument(text, { schema: 'failsafe' });
  if (document.contents === null && document.commentBefore === null) document.commentBefore = HEADING;
  document.set(name, document.createNode({ across: savedPercent(across), down: savedPercent(down) }));
  return document.toString();
}

/** In per cent, to 1e-8 of the length. */
const savedPercent = (scale: number): string => `${trimmed(scale * 100, 6)}%`;

export function findPrinter(name: string, printers: readonly KnownPrinter[]): KnownPrinter {
  const found = printers.find((printer) => printer.name === name);
  if (found) return found;
  const names = printers.map((printer) => printer.name);
  const cure =
    names.length === 0
      ? 'Print the page of "fairlath printer sheet", measure it, then run "fairlath printer set".'
      : didYouMean(name, names);
  throw new Fault('printer.unknown', `the printer ${quoted(name)} is not measured yet. ${cure}`);
}
