import { posix } from 'node:path';
import ts from 'typescript';
import type { Source } from './source.ts';

/** More files than this in one folder hide what the folder is about. */
const MAX_FILES = 20;

/** The keys that several of the values share, each with those values. */
function sharedKeys(pairs: readonly (readonly [key: string, path: string])[]): string[] {
  const paths = new Map<string, Set<string>>();
  for (const [key, path] of pairs) paths.set(key, (paths.get(key) ?? new Set()).add(path));
  return [...paths].filter(([, set]) => set.size > 1).map(([key, set]) => `${key}: ${[...set].join(', ')}`);
}

/** Folders with more than MAX_FILES files, those of their subfolders left out. */
export function crowdedFolders(sources: readonly Source[]): string[] {
  const counts = new Map<string, number>();
  for (const folder of sources.map(({ path }) => posix.dirname(path)))
    counts.set(folder, (counts.get(folder) ?? 0) + 1);
  return [...counts]
    .filter(([, count]) => count > MAX_FILES)
    .map(([folder, count]) => `${folder} holds ${count} files`);
}

/** Names that two files share: a name must be enough to find a file. */
export const sharedFileNames = (sources: readonly Source[]): string[] =>
  sharedKeys(
    sources
      .map(({ path }) => [posix.basename(path), path] as const)
      .filter(([name]) => name !== 'index.ts' && name !== 'index.html'),
  );

const parse = ({ path, text }: Source): ts.SourceFile =>
  ts.createSourceFile(path, text, ts.ScriptTarget.Latest);

const isType = (node: ts.Node): node is ts.Node & { readonly name?: ts.Identifier } =>
  ts.isInterfaceDeclaration(node) ||
  ts.isTypeAliasDeclaration(node) ||
  ts.isClassDeclaration(node) ||
  ts.isEnumDeclaration(node);

function typeNames(source: Source): string[] {
  const names: string[] = [];
  const visit = (node: ts.Node): void => {
    if (isType(node) && node.name) names.push(node.name.text);
    ts.forEachChild(node, visit);
  };
  visit(parse(source));
  return names;
}

/** Names of types that are declared in two files, whether exported or not. */
export const sharedTypeNames = (sources: readonly Source[]): string[] =>
  sharedKeys(sources.flatMap((source) => typeNames(source).map((name) => [name, source.path] as const)));

/** Assertions that a value is there (`x!`), which the compiler does not check. */
export function nonNullAssertions(source: Source): number {
  let count = 0;
  const visit = (node: ts.Node): void => {
    if (ts.isNonNullExpression(node)) count++;
    ts.forEachChild(node, visit);
  };
  visit(parse(source));
  return count;
}

/** Names of source files in a text, written as code, that no file has. */
export function lostFileNames({ path, text }: Source, files: ReadonlySet<string>): string[] {
  const named = [...text.matchAll(/`([\w/.-]*\w\.(?:ts|js))`/g)].flatMap(([, name]) => name ?? []);
  return named
    .filter((name) => !files.has(posix.basename(name)) && !name.startsWith('-'))
    .map((name) => `${path} names ${name}`);
}
