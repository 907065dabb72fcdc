/** Longer than this nothing that was typed is a name, a length or the path of a file that is meant. */
const MAX_ECHO_LETTERS = 300;
/** Enough of it to know it again. */
const KEPT_LETTERS = 60;

const cut = (text: string): string => `${[...text].slice(0, KEPT_LETTERS).join('')}…`;

/** A message with what was typed cut short where that is longer than anybody reads: in quotes, and any single word. */
export const truncate = (message: string): string =>
  message
    .replaceAll(/"[^"]*"/g, (quote) => (quote.length > MAX_ECHO_LETTERS ? `${cut(quote)}"` : quote))
    .replaceAll(/\S+/g, (word) => (word.length > MAX_ECHO_LETTERS ? cut(word) : word));
