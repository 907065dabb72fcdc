import * as yaml from 'yaml';
import { Fault } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import { utf8Length } from '../../units/utf8.ts';
import type { Diagnostics } from '../job-faults.ts';
import { yamlFaults } from './yaml-errors.ts';
import { positionAt, type SourceText, YamlNode } from './yaml-node.ts';

/** A thousand nails take 40 kB: a longer text is not a job. */
export const MAX_JOB_BYTES = 64 * 1024;

/** A thousand nails, each with a comment, take 2000 lines. */
export const MAX_JOB_LINES = 4000;

/** A job needs seven levels of lists; the parser runs out of stack at about fifteen hundred. */
const MAX_DEPTH = 100;

/** Control characters, the remains of another encoding, and bare returns. */
const NON_TEXT = /[^\P{Cc}\t\r\n]|\uFFFD|\r(?!\n)/u;

/** How messages name a text, and how its lists are written. */
export type DocumentType = { readonly name: string; readonly lists: string };

export const JOB_DOCUMENT: DocumentType = { name: 'job', lists: 'Write points as [8, 3].' };

/** The whole file as one node. */
export function readYaml(text: string, kind: DocumentType, findings: Diagnostics): YamlNode | undefined {
  const source: SourceText = { lines: new yaml.LineCounter(), findings };
  const plain = text.replace(/^\uFEFF/, '');
  const documents = checkPlainText(plain, kind, source) ? parseDocuments(plain, kind, source) : undefined;
  const [first, second] = documents ?? [];
  if (!first) return undefined;
  for (const { wording, offset } of yamlFaults(first.errors, plain, kind.lists))
    reportAt(source, offset, 'job.syntax', wording);
  if (second) {
    const wording = `a second ${kind.name} starts here. Put it in a file of its own.`;
    reportAt(source, second.range[0], 'job.two-documents', wording);
  }
  if (first.errors.length > 0) return undefined;
  if (SHORTHAND_MARKS.test(plain)) rejectShorthand(first, source);
  return new YamlNode(source, '', first.contents, { line: 1, column: 1 });
}

const reportAt = (source: SourceText, offset: number, code: string, wording: string): undefined =>
  source.findings.report(new Fault(code, wording), positionAt(source, offset));

/** What makes a text too long for a job, or for a list of readings. */
export function describeExcess(text: string): string | undefined {
  if (utf8Length(text) > MAX_JOB_BYTES) return `this text is longer than ${MAX_JOB_BYTES / 1024} kB`;
  return text.split('\n').length > MAX_JOB_LINES
    ? `this text has more than ${MAX_JOB_LINES} lines`
    : undefined;
}

/** Lines are counted here, so that even a file that is not text has places. */
function checkPlainText(text: string, { name }: DocumentType, source: SourceText): boolean {
  source.lines.addNewLine(0);
  const long = describeExcess(text);
  if (long !== undefined) {
    reportAt(
      source,
      0,
      'job.too-big',
      `${long}, and a ${name} is a page or two. Check that this is the right file.`,
    );
    return false;
  }
  for (const { index } of text.matchAll(/\n/g)) source.lines.addNewLine(index + 1);
  const odd = text.search(NON_TEXT);
  const cure = `this character is not plain text. Save the ${name} as plain text (UTF-8).`;
  if (odd >= 0) reportAt(source, odd, 'job.not-text', cure);
  return odd < 0;
}

/** Scalars stay text (the "failsafe" schema); YamlMapping finds repeated keys, without comparing each with each. */
export function composeDocuments(tokens: Iterable<yaml.CST.Token>, text: string): yaml.Document.Parsed[] {
  const composer = new yaml.Composer({ schema: 'failsafe', uniqueKeys: false, prettyErrors: false });
  return [...composer.compose(tokens, true, text.length)] as yaml.Document.Parsed[];
}

function parseDocuments(text: string, { lists }: DocumentType, source: SourceText) {
  const parser = new yaml.Parser();
  const tokens = [];
  for (const lexeme of new yaml.Lexer().lex(text)) {
    tokens.push(...parser.next(lexeme));
    if (parser.stack.length > MAX_DEPTH) {
      const wording = `too many lists are inside each other here. ${lists}`;
      return reportAt(source, parser.offset, 'job.too-deep', wording);
    }
  }
  return composeDocuments([...tokens, ...parser.end()], text);
}

const SHORTHAND_MARKS = /[&*!]/;

/** With anchors, aliases and tags one place would depend on what is written in another. */
function rejectShorthand(document: yaml.Document.Parsed, source: SourceText): void {
  yaml.visit(document, {
    Node(_, found) {
      const node = found as yaml.ParsedNode;
      const wording = describeShorthand(node);
      if (wording !== undefined) reportAt(source, node.range[0], 'job.alias', wording);
    },
  });
}

function describeShorthand(node: yaml.ParsedNode): string | undefined {
  const cure = 'Write the value itself. If it is text, put it in quotes.';
  if (yaml.isAlias(node)) return `${quoted(`*${node.source}`)} refers to a value in another place. ${cure}`;
  if (node.anchor !== undefined)
    return `${quoted(`&${node.anchor}`)} names this value for use in another place. ${cure}`;
  return node.tag === undefined ? undefined : `a "!" gives this value a type. ${cure}`;
}
