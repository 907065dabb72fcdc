import Fraction from 'fraction.js';
import { findUnit } from './length-unit.ts';
import { showFine, trueMinus } from './number-format.ts';
import { parseNumber } from './parse-number.ts';
import { type Graduation, type Reading, roundToGraduation } from './round-to-graduation.ts';
import { type MakeTextFault, splitTyped, textFaultMaker } from './split-typed.ts';
import { type Unit, withUnit } from './unit.ts';

/** A maker's rule: its unit and its finest graduation, a fraction of that unit. */
export interface Rule {
  readonly unit: Unit;
  readonly graduation: Graduation;
}

/** Graduations found on rules, in their unit: outside these bounds it is a typing mistake. */
const BOUNDS = {
  in: { finest: new Fraction(1n, 128n), coarsest: new Fraction(1n), example: '1/32' },
  mm: { finest: new Fraction(1n, 20n), coarsest: new Fraction(25n), example: '0.5' },
} as const;

const NAMES = { in: 'inches', mm: 'millimeters' } as const;

/** No rule divides a unit into more than thousandths. */
const MAX_PARTS = 1000n;

/** As most rules have: 1/32 in, or half a millimeter. */
export const defaultRule = (unit: Unit): Rule => ({
  unit,
  graduation: { numerator: 1, denominator: unit === 'in' ? 32 : 2 },
});

/** The rule with the graduation typed, in `unit`: `1/32`, `0.5`, `0.5 mm`, `1`. @throws Fault `graduation.…` */
export function parseGraduation(text: string, unit: Unit): Rule {
  const complain = textFaultMaker('graduation', text);
  const { example } = BOUNDS[unit];
  const typed = withUnit(example, unit);
  const cure = `Write the finest mark of your rule, such as ${typed}`;
  const { negative, pieces } = splitTyped(text, typed, complain);
  const [number = '', word, rest = ''] = pieces;
  if (pieces.length > 3 || rest.trim() !== '') throw complain('ambiguous', 'has more than one number', cure);
  if (word !== undefined && findUnit(word) !== unit)
    throw complain('other-unit', `is not in ${NAMES[unit]}`, cure);
  const size = parseNumber(number, complain);
  if (negative) throw complain('negative', 'is negative', cure);
  assertGraduation(size, unit, cure, complain);
  return { unit, graduation: { numerator: Number(size.n), denominator: Number(size.d) } };
}

function assertGraduation(size: Fraction, unit: Unit, cure: string, complain: MakeTextFault): void {
  const { finest, coarsest } = BOUNDS[unit];
  if (size.equals(0)) throw complain('zero', 'gives a rule without marks', cure);
  if (size.gt(coarsest))
    throw complain('too-coarse', `is larger than ${withUnit(coarsest.toFraction(), unit)}`, cure);
  const least = unit === 'in' ? finest.toFraction() : finest.toString();
  if (size.lt(finest)) throw complain('too-fine', `is smaller than ${withUnit(least, unit)}`, cure);
  if (size.d > MAX_PARTS) throw complain('not-on-a-rule', 'is not on any rule', cure);
}

/**
 * A length as read off a rule: the nearest graduation, and whether the true length is a hair off. It is "full" when it
 * goes past the mark, away from 0, by more than a quarter of a graduation, "scant" when it falls short by more: a mirrored
 * part has the same readings. At the mark 0 "scant" is below 0. What is at a half or a quarter but for the rounding to a
 * double counts as there. Zero never has a minus.
 */
export function readOnRule(mm: number, rule: Rule): Reading {
  if (!Number.isFinite(mm)) throw new TypeError(`A rule cannot show ${mm} mm.`);
  const reading = roundToGraduation(Math.abs(mm), rule.graduation, rule.unit);
  if (mm >= 0) return reading;
  const { mark, text, hair } = reading;
  return mark === 0 ? { mark, text, hair: hair && 'scant' } : { mark: -mark, text: `-${text}`, hair };
}

/** A length as read off a rule, without its unit, as programs read and write it: "-12 11/32 full". */
export function plainOnRule(mm: number, rule: Rule): string {
  const { text, hair } = readOnRule(mm, rule);
  return `${text} ${hair}`.trimEnd();
}

/** The same with a true minus sign: "−12 11/32 full". */
export const showOnRule = (mm: number, rule: Rule): string => trueMinus(plainOnRule(mm, rule));

/** The nearest mark with its unit: "12 11/32\"", "312.5 mm". For lengths that nobody sets out exactly. */
export const showNearest = (mm: number, rule: Rule): string =>
  withUnit(trueMinus(readOnRule(mm, rule).text), rule.unit);

/** A length as read off a rule, with its unit: "12 11/32\" full", "312.5 mm". */
export const showLength = (mm: number, rule: Rule): string =>
  `${showNearest(mm, rule)} ${readOnRule(mm, rule).hair}`.trimEnd();

/** The rounding of a length in doubles, mm. */
const ON_MARK_MM = 1e-9;

/** The size of a bit or a nail: as on the rule where it is on a mark, else as off a caliper, mm. */
export const showSize = (mm: number, rule: Rule): string =>
  Math.abs(readOnRule(mm, rule).mark - mm) < ON_MARK_MM ? showLength(mm, rule) : showFine(mm, rule.unit);
