import { join } from 'node:path';
import ts from 'typescript';
import type { Source } from './source.ts';

/** A name of the public API and what it stands for. */
interface Named {
  /** "arc", "Layout.sheets". */
  readonly name: string;
  readonly symbol: ts.Symbol;
}

function programOf(root: string, files: readonly string[]): ts.Program {
  const { NodeNext: module } = ts.ModuleKind;
  const { NodeNext: moduleResolution } = ts.ModuleResolutionKind;
  // Nothing is type-checked here: the language's own types would only cost time.
  const options = { module, moduleResolution, allowImportingTsExtensions: true, noLib: true, types: [] };
  return ts.createProgram(
    files.map((file) => join(root, file)),
    options,
  );
}

function exportsOf(program: ts.Program, file: string): Named[] {
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(file);
  const module = source && checker.getSymbolAtLocation(source);
  if (!module) throw new Error(`${file} gives out nothing`);
  return checker.getExportsOfModule(module).map((one) => ({
    name: one.name,
    symbol: one.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(one) : one,
  }));
}

/** The public members of an interface or a class, as it writes them itself. */
const membersOf = ({ name, symbol }: Named): Named[] =>
  [...(symbol.members?.values() ?? [])]
    .filter(({ flags }) => flags & (ts.SymbolFlags.Property | ts.SymbolFlags.Method))
    .filter(({ declarations = [] }) => declarations.every(isPublic))
    .map((member) => ({ name: `${name}.${member.name}`, symbol: member }));

const isPublic = (declaration: ts.Declaration): boolean =>
  !(ts.getCombinedModifierFlags(declaration) & ts.ModifierFlags.Private);

/** Every export of these files, and every public member of an exported interface or class, without a docstring. */
export function undocumented(root: string, files: readonly string[]): string[] {
  const program = programOf(root, files);
  const checker = program.getTypeChecker();
  const isBare = ({ symbol }: Named): boolean => symbol.getDocumentationComment(checker).length === 0;
  return files
    .flatMap((file) => exportsOf(program, join(root, file)))
    .flatMap((one) => [one, ...membersOf(one)])
    .filter(isBare)
    .map(({ name }) => name);
}

/** A function longer than this, in lines, does more than its name can say. */
const LONGEST_BARE = 10;

const isNumeric = ({ type }: ts.ParameterDeclaration): boolean => type?.kind === ts.SyntaxKind.NumberKeyword;

interface ExportedFunction {
  readonly name: string;
  readonly statement: ts.Statement;
  readonly parameters: readonly ts.ParameterDeclaration[];
}

/** The functions that a statement exports, written as a declaration or as a constant. */
function exportedFunctions(statement: ts.Statement): ExportedFunction[] {
  if (!(ts.canHaveModifiers(statement) && ts.getModifiers(statement)?.some(isExport))) return [];
  if (ts.isFunctionDeclaration(statement))
    return [{ name: statement.name?.text ?? 'default', statement, parameters: [...statement.parameters] }];
  if (!ts.isVariableStatement(statement)) return [];
  return statement.declarationList.declarations.flatMap(({ name, initializer }) =>
    initializer && ts.isArrowFunction(initializer) && ts.isIdentifier(name)
      ? [{ name: name.text, statement, parameters: [...initializer.parameters] }]
      : [],
  );
}

const isExport = ({ kind }: ts.ModifierLike): boolean => kind === ts.SyntaxKind.ExportKeyword;

/** Exported functions without a docstring that are long, or take a number whose unit nobody can guess. */
export function undocumentedFunctions(sources: readonly Source[]): string[] {
  return sources.flatMap(({ path, text }) => {
    const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
    const linesOf = (node: ts.Node): number => node.getText(file).split('\n').length;
    return file.statements
      .flatMap(exportedFunctions)
      .filter(({ statement }) => ts.getJSDocCommentsAndTags(statement).length === 0)
      .filter(({ statement, parameters }) => linesOf(statement) > LONGEST_BARE || parameters.some(isNumeric))
      .map(({ name }) => `${path}: ${name}`);
  });
}
