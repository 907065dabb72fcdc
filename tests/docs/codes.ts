import ts from 'typescript';
import type { Source } from '../house/source.ts';

/** "job.unknown-key". */
const CODE = /^[a-z]+(?:-[a-z]+)*\.[a-z]+(?:-[a-z]+)*$/;
const FAMILY = /^[a-z]+(?:-[a-z]+)*\.(?:[a-z]+-)*$/;

/** Texts of the same form that are keys of a job, names of files or of entries in the browser. */
const OTHER_TEXTS = new Set([
  ...[
    'allowance.saw',
    'laminate.plies',
    'stands.foot',
    'stock.layers',
    'stock.length',
    'stock.thickness',
    'stock.width',
  ],
  ...['fairlath.html', 'fraction.js', 'printer-sheet.pdf', 'printers.yaml', 'hall-bench-leg.yaml'],
  ...['fairlath.job', 'fairlath.light', 'fairlath.probe'],
]);

/** Codes whose last part is put in, by their first part: what may follow. */
const FAMILIES: Readonly<Record<string, readonly string[]>> = {
  'form.': ['risky', 'breaks'],
  'part.edges-': ['touch', 'cross'],
  'stock.blank-': ['length', 'width'],
  'stock.no-saw-': ['length', 'width'],
  'stock.ply-': ['length', 'width'],
  'strip.': ['thickness', 'width', 'nail', 'risky', 'breaks'],
};
/** Filled from the calls of the reader of readings, and from what is wrong with any typed number. */
const CALLED = { 'readings.': 'report', number: 'complain' } as const;
/** Heads of keys and ids, not of codes. */
const OTHER_HEADS = new Set(['edges.', 'ends.', 'fair.', 'warning.']);

export interface Codes {
  /** Every code as it stands, sorted. */
  readonly codes: readonly string[];
  /** What may be wrong with a typed length, angle or graduation: the last part of the code. */
  readonly typed: readonly string[];
  /** Families that this file does not know yet. */
  readonly unknown: readonly string[];
}

const calledName = ({ expression }: ts.CallExpression): string =>
  ts.isPropertyAccessExpression(expression) ? expression.name.text : expression.getText();

/** Every code that the sources can give, read from their syntax. */
export function codesIn(sources: readonly Source[]): Codes {
  const [codes, typed, unknown] = [new Set<string>(), new Set<string>(), new Set<string>()];
  for (const source of sources) {
    const file = ts.createSourceFile(source.path, source.text, ts.ScriptTarget.Latest, true);
    const visit = (node: ts.Node): void => {
      if (ts.isStringLiteralLike(node) && CODE.test(node.text) && !OTHER_TEXTS.has(node.text))
        codes.add(node.text);
      if (ts.isTemplateHead(node) && FAMILY.test(node.text)) addFamily(node.text);
      if (ts.isCallExpression(node)) addCalled(source.path, node);
      ts.forEachChild(node, visit);
    };
    visit(file);
  }
  return { codes: [...codes].toSorted(), typed: [...typed].toSorted(), unknown: [...unknown] };

  function addFamily(head: string): void {
    if (OTHER_HEADS.has(head) || head in CALLED) return;
    const tails = FAMILIES[head];
    if (!tails) unknown.add(head);
    for (const tail of tails ?? []) codes.add(head + tail);
  }

  function addCalled(path: string, call: ts.CallExpression): void {
    const [code] = call.arguments;
    if (!code || !ts.isStringLiteral(code) || !/^[a-z-]+$/.test(code.text)) return;
    const name = calledName(call);
    if (name === CALLED.number) typed.add(code.text);
    if (name === CALLED['readings.'] && path.endsWith('read-readings.ts')) codes.add(`readings.${code.text}`);
  }
}
