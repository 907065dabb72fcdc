/** Not within a longer row of numbers: a date, a decimal, a path, a word. */
const FRACTION = /(?<![\p{L}\d./\u2044])([1-9]\d{0,2})\/([1-9]\d{0,2})(?![\p{L}\d/\u2044]|\.\d)/gu;

/** A name in its quotation marks, or an inch mark. */
const STRAIGHT_MARKS = /(?<![^\s(])"([^"]*)"|(?<=\d)"/g;

/**
 * As paper and page show measures: "12 11/32\"" gets the fraction slash (U+2044), at which OpenType fonts set small
 * figures, and the double prime (U+2033). Names get curly quotation marks.
 */
export const typesetMeasures = (text: string): string =>
  text
    .replace(STRAIGHT_MARKS, (_, name?: string) => (name === undefined ? '\u2033' : `“${name}”`))
    .replace(FRACTION, '$1\u2044$2');

export const NO_BREAK = '\u00a0';

/** A number with its fraction, its unit and its hair: "12 11/32\" scant", "9.7 mm". */
export const MEASURE =
  /\d[\d/\u2044.]*(?: \d+[/\u2044]\d+)?(?:["\u2033]| mm)?(?: (?:full|scant))?(?![\w/\u2044])/g;

/** Text in which no line ends within a number, nor between it and its unit. */
export const keepMeasuresTogether = (text: string): string =>
  text.replace(MEASURE, (whole) => whole.replaceAll(' ', NO_BREAK));
