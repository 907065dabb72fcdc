import ts from 'typescript';
import type { Source } from './source.ts';

/** What a person reads: a text of the source, or a paragraph of a document. */
export interface PlainText {
  readonly where: string;
  readonly text: string;
  /** The most words that a sentence of it may have. */
  readonly longest: number;
  readonly isOptionHelp: boolean;
}

/** At the bench, and where a document is read sitting. */
const [LONGEST_AT_BENCH, LONGEST_IN_DOCS] = [20, 25];

/** Stands for what a template puts in. */
const HOLE = '0';

/** The texts of a source file: each literal with more than two words, those joined by + as one. */
export function textsOfCode({ path, text }: Source): PlainText[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const found: PlainText[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || isOurBug(node)) return;
    const words = wordsOf(node);
    if (words === undefined) ts.forEachChild(node, visit);
    else if (isForPeople(words))
      found.push({
        where: `${path}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}`,
        text: words,
        longest: LONGEST_AT_BENCH,
        isOptionHelp: isOptionHelp(node),
      });
  };
  visit(file);
  return found;
}

/** A failure of the program itself speaks to its developers. */
const isOurBug = (node: ts.Node): boolean =>
  ts.isNewExpression(node) && /^(Type|Range)?Error$/.test(node.expression.getText());

function wordsOf(node: ts.Node): string | undefined {
  if (ts.isStringLiteralLike(node)) return node.text;
  if (ts.isTemplateExpression(node))
    return node.head.text + node.templateSpans.map(({ literal }) => HOLE + literal.text).join('');
  if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.PlusToken) {
    const [left, right] = [wordsOf(node.left), wordsOf(node.right)];
    if (left === undefined && right === undefined) return undefined;
    return (left ?? HOLE) + (right ?? HOLE);
  }
  return undefined;
}

/** A tag, a path, a command, a key of a job, a table of the font. */
const CODE =
  /^[<#.]|^[\da-f]+:[\da-z.]+ |="|[{}]|^(fairlath|[a-z]+) --|\$ |^M\d| \d+ \d+ 0|^[\w-]+: [\w-]+$|^ \S/;
const isForPeople = (text: string): boolean => /\p{L}{2,} \p{L}+/u.test(text) && !CODE.test(text);

/** `'--name <value>': 'help'` or `option('--name', 'help')`. */
function isOptionHelp(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isPropertyAssignment(parent) && ts.isStringLiteral(parent.name))
    return parent.name.text.includes('--');
  if (!ts.isCallExpression(parent)) return false;
  const first = parent.arguments[0];
  return first !== undefined && first !== node && (wordsOf(first) ?? '').includes('--');
}

/** The paragraphs, list items and cells of a document, without code. */
export function textsOfDocument({ path, text }: Source): PlainText[] {
  const blank = (block: string): string => block.replaceAll(/[^\n]/g, '');
  const prose = text.replaceAll(/^```[\s\S]*?^```/gm, blank).replaceAll(/<!--[\s\S]*?-->/g, blank);
  const found: PlainText[] = [];
  let [start, paragraph] = [1, ''];
  const end = (): void => {
    for (const cell of paragraph.split(/\s\|\s/))
      if (isForPeople(cell.trim()))
        found.push({
          where: `${path}:${start}`,
          text: cell.replaceAll(/`[^`]*`/g, HOLE).replaceAll(/!?\[([^\]]*)\]\([^)]*\)/g, '$1'),
          longest: LONGEST_IN_DOCS,
          isOptionHelp: false,
        });
    paragraph = '';
  };
  prose.split('\n').forEach((line, i) => {
    if (/^\s*$|^#|^\s*[-*] |^\s*\d+\. |^\|/.test(line)) end();
    if (paragraph === '') start = i + 1;
    paragraph += ` ${line.trim()}`;
  });
  end();
  return found;
}

/** The words of the page itself, between its tags and in what is read aloud. */
export function textsOfMarkup({ path, text }: Source): PlainText[] {
  const shown = text.replaceAll(/<(script|style)[\s\S]*?<\/\1>/g, '');
  const pieces = [...shown.matchAll(/>([^<]+)<|(?:title|aria-label|placeholder)="([^"]*)"/g)];
  return pieces.flatMap(([, between, attribute]) => {
    const words = (between ?? attribute ?? '').replaceAll(/\s+/g, ' ').trim();
    const longest = LONGEST_AT_BENCH;
    return isForPeople(words) ? [{ where: path, text: words, longest, isOptionHelp: false }] : [];
  });
}

interface Rule {
  readonly forbids: RegExp;
  readonly write: string;
  readonly binds?: (text: PlainText) => boolean;
}

const onPaperOrPage = ({ where }: PlainText): boolean => /^src\/(export|page)\//.test(where);
const inCode = ({ where }: PlainText): boolean => where.startsWith('src/');

const RULES: readonly Rule[] = [
  { forbids: /\b(?:is|are|was) no (?!longer|more\b)/i, write: 'is not a' },
  { forbids: /\bexclude each other\b/i, write: 'Use A or B, not both' },
  { forbids: /\b(?:anew|afresh)\b/i, write: 'again' },
  { forbids: /\bof itself\b|\bso that it may\b/i, write: 'plain order' },
  { forbids: /\bpast saving\b|\bspring free\b|\bmind where\b|\ba hair\b/i, write: 'no idiom' },
  { forbids: /\b(?:made|make|makes|making) good\b/i, write: 'correct' },
  { forbids: /\btake care\b/i, write: 'Warning or Caution' },
  { forbids: /\bmarked face\b|\bface side\b/i, write: 'reference face' },
  // The job key and the option are called strip.
  { forbids: /(?<!--|")\bstrips?\b|\blaths?\b/i, write: 'batten, fold tab or row' },
  { forbids: /\bpins?\b/i, write: 'nail (of a batten) or point (of a spline)' },
  { forbids: /\bwanted\b|\bother hand\b/i, write: 'quantity, copies, mirrored part' },
  { forbids: /(?<!miter |part to the )\bgauges?\b/i, write: 'story stick, miter gauge or blade thickness' },
  { forbids: /\b(?:lying|upright)\b/i, write: 'landscape, portrait' },
  { forbids: /\b(?:nearer|farther)\b(?! from| than)|(?<!--)\bbush\b/i, write: 'zoom in, zoom out; bushing' },
  { forbids: /\b(?:told|tells|borne|bears?)\b/i, write: 'shows, carries' },
  { forbids: /\b(?:dashed|solid) line\b/i, write: 'saw line, finished line' },
  { forbids: /\bline to (?:cut|saw)\b/i, write: 'finished line, saw line' },
  { forbids: /\bexclude[sd]? each\b|\bthe one in hand\b|\bof (?:ours|yours)\b/i, write: 'the noun' },
  {
    forbids:
      /\b(?:colour|centre|neighbour|favour|grey|mould|millimetre|metre|gauge’s|catalogue|programme|judgement)/i,
    write: 'US spelling',
  },
  {
    forbids: /\d (?:in|%)(?=[\s.,;:)]|$)(?! \d)/,
    write: '3″ or 3", 12 mm, 99.7%',
    binds: ({ text }) => !/\d in \d/.test(text),
  },
  { forbids: /(?<=[\s(,])-\d[\d./ ]*°/, write: 'a true minus' },
  {
    forbids: /^(?:of|what|how|which|that|where|whether|the same)\b/i,
    write: 'what the option is, then its default',
    binds: ({ isOptionHelp }) => isOptionHelp,
  },
  {
    forbids: /\bfairlath [a-z-]+|(?<!\S)--[a-z]/,
    write: 'no command on paper or page',
    binds: onPaperOrPage,
  },
  { forbids: /:[^.!?]*: [^.!?]*: /, write: 'no chain of colons', binds: inCode },
];

const MARKS_END = /(?<=[.!?…])["”)]?\s+|\n+|(?<=\S): (?=[A-Z]|$)/;

const sentences = (text: string): string[] => text.split(MARKS_END).map((each) => each.trim());
const countWords = (sentence: string): number =>
  sentence.split(/\s+/).filter((word) => /[\p{L}\d]/u.test(word)).length;

/** What a text does against the way fairlath speaks, each with where it is. */
export function complaintsOf(texts: readonly PlainText[]): string[] {
  return texts.flatMap((each) => {
    const { where, text, longest } = each;
    const found = RULES.flatMap(({ forbids, write, binds }) => {
      const [match] = binds?.(each) === false ? [] : (forbids.exec(text) ?? []);
      return match === undefined ? [] : [`${where}: "${match.trim()}". Write: ${write}.`];
    });
    const long = sentences(text).filter((sentence) => countWords(sentence) > longest);
    return [...found, ...long.map((sentence) => `${where}: over ${longest} words: ${sentence}`)];
  });
}
