import { isBuiltin } from 'node:module';
import { posix } from 'node:path';
import ts from 'typescript';
import type { Source } from './source.ts';

/** From the ground up. A folder may use those on the lines above it here, never its neighbours on its own line. */
const FLOORS: readonly (readonly string[])[] = [
  ['units'],
  ['curves'],
  ['job'],
  ['part'],
  ['shop', 'check', 'tiling'],
  ['export'],
  ['cli', 'page'],
];

/**
 * The layers inside src/curves, from the ground up; `.` is the files of the folder itself. A tapered strip starts from
 * the uniform one, and `compare` weighs the kinds against each other.
 */
const CURVE_LAYERS: readonly (readonly string[])[] = [
  ['numeric'],
  ['geometry'],
  ['.'],
  ['simple', 'elastica'],
  ['tapered'],
  ['offset', 'arcs', 'fairness', 'compare'],
];

/** The public API gives out what stands below the command line and the page; nothing in the house uses it. */
const API = 'src/index.ts';

interface Import {
  readonly from: string;
  /** Relative imports as a path from the root, the others as they are written. */
  readonly to: string;
  readonly relative: boolean;
}

/** Static, dynamic and type imports and re-exports. */
function importsOf({ path, text }: Source): Import[] {
  return ts.preProcessFile(text, true, true).importedFiles.map(({ fileName }) => {
    const relative = fileName.startsWith('.');
    return { from: path, relative, to: relative ? posix.join(posix.dirname(path), fileName) : fileName };
  });
}

const folderOf = (path: string): string => path.split('/')[1] ?? '';

/** The API file stands on the top floor. */
const floorOf = (path: string): number =>
  path === API ? FLOORS.length - 1 : FLOORS.findIndex((floor) => floor.includes(folderOf(path)));

const curveFolderOf = (path: string): string => {
  const [, , folder = '', file] = path.split('/');
  return file === undefined ? '.' : folder;
};

const curveLayerOf = (path: string): number =>
  CURVE_LAYERS.findIndex((layer) => layer.includes(curveFolderOf(path)));

function runsDownward(from: string, to: string): boolean {
  if (folderOf(to) !== folderOf(from)) return floorOf(to) < floorOf(from);
  if (folderOf(from) !== 'curves' || curveFolderOf(to) === curveFolderOf(from)) return true;
  return curveLayerOf(to) < curveLayerOf(from);
}

function importComplaint({ from, to, relative }: Import): string | undefined {
  const mayUseNode = folderOf(from) === 'cli';
  if (!relative) {
    return isBuiltin(to) && !mayUseNode ? `${from} imports ${to}: only src/cli may use Node` : undefined;
  }
  if (mayUseNode && to === 'package.json') return undefined;
  if (!to.startsWith('src/')) return `${from} imports ${to}, which is outside src`;
  return runsDownward(from, to) ? undefined : `${from} imports ${to}: imports run downward only`;
}

/** The way from a file back to itself, if there is one: depth first, each file finished once. */
function findCycle(imports: readonly Import[]): string[] | undefined {
  const finished = new Set<string>();
  const walk = (file: string, trail: readonly string[]): string[] | undefined => {
    if (trail.includes(file)) return [...trail.slice(trail.indexOf(file)), file];
    if (finished.has(file)) return undefined;
    finished.add(file);
    return firstOf(
      imports.filter(({ from }) => from === file).map(({ to }) => to),
      [...trail, file],
    );
  };
  const firstOf = (files: readonly string[], trail: readonly string[]): string[] | undefined => {
    for (const file of files) {
      const found = walk(file, trail);
      if (found) return found;
    }
    return undefined;
  };
  return firstOf(
    imports.map(({ from }) => from),
    [],
  );
}

/** The API file may hold nothing but `export … from`. */
function apiComplaints({ path, text }: Source): string[] {
  return ts
    .createSourceFile(path, text, ts.ScriptTarget.Latest)
    .statements.filter((statement) => !(ts.isExportDeclaration(statement) && statement.moduleSpecifier))
    .map(
      (statement) => `${path} does more than re-export: ${text.slice(statement.pos, statement.end).trim()}`,
    );
}

/** Files that stand on no floor, imports that do not run downward, a cycle, an API file with code of its own. */
export function layeringComplaints(sources: readonly Source[]): string[] {
  const imports = sources.flatMap(importsOf);
  const cycle = findCycle(imports);
  return [
    ...sources
      .filter(({ path }) => floorOf(path) < 0 || (folderOf(path) === 'curves' && curveLayerOf(path) < 0))
      .map(({ path }) => `${path} is on no floor of the house`),
    ...imports.map(importComplaint).filter((complaint) => complaint !== undefined),
    ...(cycle ? [`import cycle: ${cycle.join(' -> ')}`] : []),
    ...sources.filter(({ path }) => path === API).flatMap(apiComplaints),
  ];
}
