import type { YAMLParseError } from 'yaml';

/** After any other error, what follows is a guess. */
const LOCAL_ERRORS: ReadonlySet<string> = new Set(['TAB_AS_INDENT', 'BAD_SCALAR_START', 'BAD_DQ_ESCAPE']);

const YAML_CURES: Readonly<Record<string, string>> = {
  TAB_AS_INDENT: 'a tab indents this line. Indent with spaces.',
  BAD_INDENT:
    'this line is not indented like its neighbours, or a bracket before it is left open. ' +
    'Start names that belong together in the same column, and close each [ with ].',
  BLOCK_AS_IMPLICIT_KEY:
    'a second name with a colon stands in this value. ' +
    'Put text that holds a colon in quotes, and start each name on its own line, in line with the one above.',
  MULTILINE_IMPLICIT_KEY: 'there is no colon and space after the name. Write it as "name: value".',
  BAD_SCALAR_START: 'this mark cannot begin a value. Put text that begins with it in quotes.',
  BAD_DQ_ESCAPE:
    'a backslash in quotes begins nothing known here. Write \\\\ for a backslash and \\" for a quote.',
  BLOCK_IN_FLOW: 'a list in brackets holds something that needs lines of its own.',
  MISSING_CHAR: 'a mark is missing here. Write names as "name: value".',
};

/** Their cure says how the kind of text writes its lists. */
const LIST_ERRORS: ReadonlySet<string> = new Set(['BLOCK_IN_FLOW', 'MISSING_CHAR']);

const DEFAULT_CURE =
  'this does not fit what stands before it. ' +
  'Close brackets and quotes where they were opened; put text with marks of its own in quotes.';

/** One fault a place, none that only follows from another. `lists` says how the file writes its lists. */
export function yamlFaults(errors: readonly YAMLParseError[], text: string, lists: string) {
  const inOrder = errors.toSorted((a, b) => a.pos[0] - b.pos[0]);
  const structural = inOrder.findIndex((error) => !LOCAL_ERRORS.has(error.code));
  const kept = structural < 0 ? inOrder : inOrder.slice(0, structural + 1);
  // A stray mark can be reported twice, by the value before it and by the one after.
  const each = kept.filter((error, i) => error.pos[0] !== kept[i - 1]?.pos[0]);
  return each.map((error) => ({
    wording: describeYamlError(error, lists),
    offset: findOpenQuote(error, text) ?? error.pos[0],
  }));
}

function describeYamlError(error: YAMLParseError, lists: string): string {
  if (isOpenQuote(error)) return 'the quote opened here is never closed. Close it where the text ends.';
  const cure = YAML_CURES[error.code] ?? DEFAULT_CURE;
  return LIST_ERRORS.has(error.code) ? `${cure} ${lists}` : cure;
}

const isOpenQuote = ({ code, message }: YAMLParseError): boolean =>
  code === 'MISSING_CHAR' && /closing ["']quote/.test(message);

/** The parser reports an open quote at the end of the file; the maker looks for its start. */
function findOpenQuote(error: YAMLParseError, text: string): number | undefined {
  if (!isOpenQuote(error)) return undefined;
  const mark = error.message.includes('"') ? '"' : "'";
  const at = text.lastIndexOf(mark, error.pos[0] - 1);
  return at < 0 ? undefined : at;
}
