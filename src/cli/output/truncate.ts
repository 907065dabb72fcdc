/** Longer than this nothing that was typed is a name, a length or the path of a file that is meant. */
const LONGEST_ECHO = 300;
/** Enough of it to know it again. */
const KEPT = 60;

const cut = (text: string): string => `${[...text].slice(0, KEPT).join('')}…`;

/** A message with what was typed cut short where that is longer than anybody reads: in quotes, and any single word. */
export const brief = (message: string): string =>
  message
    .replaceAll(/"[^"]*"/g, (quote) => (quote.length > LONGEST_ECHO ? `${cut(quote)}"` : quote))
    .replaceAll(/\S+/g, (word) => (word.length > LONGEST_ECHO ? cut(word) : word));
