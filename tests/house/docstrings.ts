import { join } from 'node:path';
import ts from 'typescript';

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
