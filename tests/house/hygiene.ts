import ts from 'typescript';
import type { Source } from './source.ts';

/** More than a reader keeps in mind at once. */
const LONGEST_FILE = 300;

const isCode = ({ path }: Source): boolean => /\.[jt]s$/.test(path);
const isCore = ({ path }: Source): boolean => /^src\/(?!cli\/)/.test(path);

function usesAny({ path, text }: Source): boolean {
  const visit = (node: ts.Node): boolean =>
    node.kind === ts.SyntaxKind.AnyKeyword || ts.forEachChild(node, visit) === true;
  return visit(ts.createSourceFile(path, text, ts.ScriptTarget.Latest));
}

/** A straight apostrophe within a word or behind one, and one behind a figure that a template puts in. */
const STRAIGHT = /\p{L}'\p{L}|s'\s/u;
const BEHIND_FIGURE = /^'s\b/;

/** Words for people have the curly one: a straight one is the mark of feet. */
function hasStraightApostrophe({ path, text }: Source): boolean {
  const visit = (node: ts.Node): boolean => {
    if (ts.isStringLiteralLike(node) || ts.isTemplateHead(node)) return STRAIGHT.test(node.text);
    if (ts.isTemplateMiddleOrTemplateTail(node))
      return STRAIGHT.test(node.text) || BEHIND_FIGURE.test(node.text);
    return ts.forEachChild(node, visit) === true;
  };
  return visit(ts.createSourceFile(path, text, ts.ScriptTarget.Latest));
}

/** A home, a checkout or a scratch folder of one machine, in any of the three systems' spelling. */
const MACHINE_PATH = /(?:^|[\s"'`(=:])(?:\/(?:home|Users|root|work|tmp|var\/folders)\/\w|[A-Z]:\\\\?\w)/m;

/** Each rule: whom it binds, what it finds, what it says. Words are split so that this file passes its own rules. */
const RULES: readonly (readonly [
  binds: (s: Source) => boolean,
  breaks: (s: Source) => boolean,
  says: string,
])[] = [
  [isCode, usesAny, 'uses any. Name the type, or take unknown and look'],
  [isCode, ({ text }) => /@ts-(?:ignore|nocheck)/.test(text), 'silences the type check'],
  [
    isCore,
    ({ text }) => /\bconsole\s*[.[]/.test(text),
    'writes to the console. Only src/cli talks to the user',
  ],
  [
    isCode,
    ({ text }) => /\b(?:TO(?:)DO|FIX(?:)ME|XX(?:)X)\b/.test(text),
    'leaves work for later. Do it, or file it',
  ],
  [
    ({ path }) => /^src\/.*\.ts$/.test(path),
    hasStraightApostrophe,
    'has a straight apostrophe in words for people. Write ’',
  ],
  [
    isCode,
    ({ text }) => text.trimEnd().split('\n').length > LONGEST_FILE,
    `is over ${LONGEST_FILE} lines. Split it`,
  ],
  [
    ({ path }) => path === 'package-lock.json' || path.endsWith('.npmrc'),
    ({ text }) => /registry\s*[.=]|"resolved"/.test(text),
    'names a package server. Leave the choice to whoever installs',
  ],
  [() => true, ({ text }) => MACHINE_PATH.test(text), 'holds a path of one machine'],
];

/** Every broken rule, with the file that breaks it. */
export function hygieneComplaints(sources: readonly Source[]): string[] {
  return sources.flatMap((source) =>
    RULES.filter(([binds, breaks]) => binds(source) && breaks(source)).map(
      ([, , says]) => `${source.path} ${says}.`,
    ),
  );
}

interface Manifest {
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
}

/** The packages whose version is a range or a tag instead of one exact version. */
export function unpinned({ dependencies, devDependencies }: Manifest): string[] {
  return Object.entries({ ...dependencies, ...devDependencies })
    .filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))
    .map(([name, version]) => `${name} ${version}`);
}
