import { Fault } from './fault.ts';
import { quoted } from './quoted.ts';

/** Makes the fault of a typed text from what is wrong and what to do. */
export type MakeTextFault = (code: string, wrong: string, cure: string) => Fault;

export const textFaultMaker =
  (subject: 'length' | 'angle' | 'graduation', text: string): MakeTextFault =>
  (code, wrong, cure) =>
    new Fault(`${subject}.${code}`, `${quoted(text)} ${wrong}. ${cure}.`);

/** The longest sensible entry has about 20 characters. */
const MAX_TEXT = 64;

const WORDS = /([^\d.,/\s-]+)/;
const EXPONENT = /^([+-]?[\d.]+e[+-]?\d+)(.*)$/;

/**
 * Typed text taken apart: its sign, and numbers and words in turn, beginning and ending with a number:
 * `2' 4 1/2"` is ["2", "'", " 4 1/2", '"', ""]. The message gives `example` as a correct entry.
 */
export function splitTyped(text: string, example: string, complain: MakeTextFault) {
  if (text.length > MAX_TEXT)
    throw complain('too-long', `has more than ${MAX_TEXT} characters`, `Write one value, such as ${example}`);
  const plain = normalizeText(text);
  if (plain === '') throw complain('empty', 'is empty', `Write a value, such as ${example}`);
  if (!/\d/.test(plain)) throw complain('not-a-number', 'has no number', `Write a value, such as ${example}`);
  assertNoComma(plain, complain);
  assertNoExponent(plain, complain);
  return { negative: plain.startsWith('-'), pieces: plain.replace(/^[+-] ?/, '').split(WORDS) };
}

const VULGAR = '¼-¾⅐-⅞↉';
const BEFORE_OR_AFTER_VULGAR = new RegExp(`(?<=[\\d.${VULGAR}])(?=[${VULGAR}])|(?<=[${VULGAR}])(?=\\d)`, 'g');
const ONE_VULGAR = new RegExp(`[${VULGAR}]`, 'g');

/** Signs that keyboards, word processors and web pages put for the same thing. */
const EQUIVALENT_SIGNS: readonly (readonly [RegExp, string])[] = [
  [/[\u2044\u2215]/g, '/'], // fraction slash, division slash
  [/[\u2212\u2010-\u2013]/g, '-'], // minus, hyphens, en dash
  [/[\u2032\u2018\u2019\u00b4]/g, "'"], // prime, curly quotes, acute accent
  [/[\u2033\u201c\u201d]/g, '"'], // double prime, curly double quotes
  [/''/g, '"'],
  [/[\u00ba\u02da]/g, '°'], // ordinal sign, ring above
  [/\s+/g, ' '], // no-break and thin spaces too
  [/ ?\/ ?/g, '/'],
  [/(?<=[a-z])\.(?= |$)/g, ''], // "in." is short for inches
];

/** Typed text in lower case and plain signs: "12½″" becomes `12 1/2"` (not 121/2), "−¾" becomes "-3/4". */
function normalizeText(text: string): string {
  const apart = text.replace(BEFORE_OR_AFTER_VULGAR, ' ');
  const spelled = apart.replace(ONE_VULGAR, (sign) => sign.normalize('NFKC')).toLowerCase();
  return EQUIVALENT_SIGNS.reduce((plain, [signs, sign]) => plain.replace(signs, sign), spelled).trim();
}

function assertNoComma(plain: string, complain: MakeTextFault): void {
  if (!plain.includes(',')) return;
  const pointed = plain.replace(',', '.');
  if (/^[+-]?[1-9]\d{0,2}(,\d{3})+(?!\d)/.test(plain)) {
    const joined = plain.replaceAll(',', '');
    const cure = /[.,].*[.,]/.test(plain) ? joined : `${joined} or ${pointed}`;
    throw complain('comma', 'has a comma, which can mean a decimal point or thousands', `Write ${cure}`);
  }
  const isDecimal = /^[+-]?\d+,\d+(?![\d,.])/.test(plain);
  const cure = isDecimal ? pointed : 'one number with a decimal point, such as 12.5';
  throw complain('comma', 'has a comma', `Write ${cure}`);
}

function assertNoExponent(plain: string, complain: MakeTextFault): void {
  const [, number = '', rest = ''] = EXPONENT.exec(plain) ?? [];
  if (number === '') return;
  const inFull = String(Number(number));
  const cure = /^-?[\d.]+$/.test(inFull) ? `${inFull}${rest}` : 'the full number, such as 1000';
  throw complain('exponent', 'has an exponent', `Write ${cure}`);
}
