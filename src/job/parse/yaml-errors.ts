import type { YAMLParseError } from 'yaml';

/** After any other error, what follows is a guess. */
const LOCAL_ERRORS: ReadonlySet<string> = new Set(['TAB_AS_INDENT', 'BAD_SCALAR_START', 'BAD_DQ_ESCAPE']);

const YAML_CURES: Readonly<Record<string, string>> = {
  TAB_AS_INDENT: 'this line is indented with a tab. Use spaces.',
  BAD_INDENT:
    'this line is not indented like the lines around it, or a bracket above it is not closed. ' +
    'Start names that belong together in the same column. Close each [ with ].',
  BLOCK_AS_IMPLICIT_KEY:
    'this value has a second colon. Put text with a colon in quotes. ' +
    'Start each name on its own line, in the same column as the name above.',
  MULTILINE_IMPLICIT_KEY: 'the name has no colon and space after it. Write "name: value".',
  BAD_SCALAR_START: 'a value cannot start with this character. Put the text in quotes.',
  BAD_DQ_ESCAPE:
    'the backslash in these quotes has no known meaning. Write \\\\ for a backslash and \\" for a quote.',
  BLOCK_IN_FLOW: 'this list in brackets has an entry that needs its own lines.',
  MISSING_CHAR: 'a character is missing here. Write "name: value".',
};

/** Errors whose cure also says how this kind of text writes its lists. */
const LIST_ERRORS: ReadonlySet<string> = new Set(['BLOCK_IN_FLOW', 'MISSING_CHAR']);

const DEFAULT_CURE =
  'this does not match the text before it. ' +
  'Close all brackets and quotes. Put text with special characters in quotes.';

/** One fault for each place, without those that only follow from another. `lists` says how the file writes its lists. */
export function yamlFaults(errors: readonly YAMLParseError[], text: string, lists: string) {
  const inOrder = errors.toSorted((a, b) => a.pos[0] - b.pos[0]);
  const structural = inOrder.findIndex((error) => !LOCAL_ERRORS.has(error.code));
  const kept = structural < 0 ? inOrder : inOrder.slice(0, structural + 1);
  // The parser can report a stray mark twice, for the value before it and for the value after it.
  const each = kept.filter((error, i) => error.pos[0] !== kept[i - 1]?.pos[0]);
  return each.map((error) => ({
    wording: describeYamlError(error, lists),
    offset: findOpenQuote(error, text) ?? error.pos[0],
  }));
}

function describeYamlError(error: YAMLParseError, lists: string): string {
  if (isOpenQuote(error)) return 'the quote that starts here is not closed. Close it where the text ends.';
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
