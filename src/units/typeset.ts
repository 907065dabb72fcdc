/** Not within a longer row of numbers: a date, a decimal, a path, a word. */
const FRACTION = /(?<![\p{L}\d./\u2044])([1-9]\d{0,2})\/([1-9]\d{0,2})(?![\p{L}\d/\u2044]|\.\d)/gu;

/** "12 11/32" gets the fraction slash (U+2044): OpenType fonts set small figures above and below it. */
export const typesetFractions = (text: string): string => text.replace(FRACTION, '$1\u2044$2');

export const NO_BREAK = '\u00a0';

/** A number with its fraction, its unit and its hair: "12 11/32 in shy", "0.43 %". */
export const MEASURE =
  /\d[\d/\u2044.]*(?: \d+[/\u2044]\d+)?(?: (?:in|mm|%))?(?: (?:full|shy))?(?![\w/\u2044])/g;

/** Text in which no line ends within a number, nor between it and its unit. */
export const keepMeasuresTogether = (text: string): string =>
  text.replace(MEASURE, (whole) => whole.replaceAll(' ', NO_BREAK));
