import Fraction from 'fraction.js';

/** The units a length can be typed in. */
export type LengthUnit = 'in' | 'ft' | 'mm' | 'cm' | 'm';

/** An inch is 25.4 mm by definition (international yard and pound agreement, 1959), a foot twelve of them. */
export const MM_IN: Readonly<Record<LengthUnit, Fraction>> = {
  in: new Fraction(127n, 5n),
  ft: new Fraction(1524n, 5n),
  mm: new Fraction(1n),
  cm: new Fraction(10n),
  m: new Fraction(1000n),
};

const WORDS: Readonly<Record<LengthUnit, RegExp>> = {
  in: /^("|in|inch|inches|inch\(es\))$/,
  ft: /^('|ft|foot|feet)$/,
  mm: /^(mm|millimet(re|er)s?)$/,
  cm: /^(cm|centimet(re|er)s?)$/,
  m: /^(m|met(re|er)s?)$/,
};

/** The unit of a word or sign in lower case and plain signs. */
export const findUnit = (word: string): LengthUnit | undefined =>
  (Object.keys(WORDS) as LengthUnit[]).find((unit) => WORDS[unit].test(word));
