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
export function normalizeText(text: string): string {
  const apart = text.replace(BEFORE_OR_AFTER_VULGAR, ' ');
  const spelled = apart.replace(ONE_VULGAR, (sign) => sign.normalize('NFKC')).toLowerCase();
  return EQUIVALENT_SIGNS.reduce((plain, [signs, sign]) => plain.replace(signs, sign), spelled).trim();
}
