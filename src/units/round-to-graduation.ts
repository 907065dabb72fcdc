import Fraction from 'fraction.js';
import { exactFraction, toDouble } from './exact-fraction.ts';
import { MM_IN } from './length-unit.ts';
import type { Unit } from './unit.ts';

/** A fraction in lowest terms: 1/32 of an inch, 1/2 of a millimeter. Both whole, both > 0. */
export interface Graduation {
  readonly numerator: number;
  readonly denominator: number;
}

/** A length as read off a rule. */
export interface Reading {
  /** The nearest graduation, mm, rounded once. */
  readonly mark: number;
  /** That graduation as written, without its unit: "12 11/32", "312.5". */
  readonly text: string;
  /** Whether the true length is a hair (a quarter of a graduation) longer than the mark, shorter, or on it. */
  readonly hair: 'full' | 'scant' | '';
}

/** The nearest mark to `size` mm (>= 0): exact, as in fractions, for doubles decide only what rounding cannot change. */
export const roundToGraduation = (size: number, graduation: Graduation, unit: Unit): Reading =>
  roundInDoubles(size, graduation, unit) ?? roundInFractions(size, graduation, unit);

/** Up to here a count of quarters is exact, and what is written has at most 15 digits. */
const MAX_QUARTERS = 2 ** 30;
/** Nearer to a half or a quarter, rounding might decide: three roundings at 2^30 are 4e-7 quarters. */
const TIE_MARGIN = 1e-6;

/** Undefined where the length is too long, or too close to where the answer changes, for doubles to decide. */
export function roundInDoubles(size: number, graduation: Graduation, unit: Unit): Reading | undefined {
  const numerator = graduation.numerator * Number(MM_IN[unit].n);
  const denominator = graduation.denominator * Number(MM_IN[unit].d);
  const quarters = (4 * size * denominator) / numerator;
  const nearest = Math.round(quarters);
  if (nearest > MAX_QUARTERS || (nearest % 4 !== 0 && Math.abs(quarters - nearest) < TIE_MARGIN))
    return undefined;
  const count = Math.round(quarters / 4);
  const beyond = quarters - 4 * count;
  return {
    mark: (count * numerator) / denominator,
    text: formatMark(count * graduation.numerator, graduation.denominator, isInFractions(graduation, unit)),
    hair: beyond > 1 ? 'full' : beyond < -1 ? 'scant' : '',
  };
}

function formatMark(above: number, below: number, inFraction: boolean): string {
  const rest = above % below;
  if (!inFraction || rest === 0) return String(above / below);
  const whole = (above - rest) / below;
  const common = commonDivisor(rest, below);
  return `${whole === 0 ? '' : `${whole} `}${rest / common}/${below / common}`;
}

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));

/** `roundToGraduation` in exact fractions: for every length, but slow. */
export function roundInFractions(size: number, graduation: Graduation, unit: Unit): Reading {
  const { numerator, denominator } = graduation;
  const step = new Fraction(BigInt(numerator), BigInt(denominator));
  const stepMm = step.mul(MM_IN[unit]);
  // Rounded once, as a typed length is.
  const quarters = (count: bigint): number => toDouble(stepMm.mul(count).div(4n));

  const below = exactFraction(size).div(stepMm).floor().n;
  // Beyond 2^53 graduations the halfway double may be that of the mark itself.
  const nearer = size >= quarters(4n * below + 2n) && size !== quarters(4n * below);
  const count = nearer ? below + 1n : below;
  const value = step.mul(count);
  return {
    mark: quarters(4n * count),
    text: isInFractions(graduation, unit) ? value.toFraction(true) : value.toString(),
    hair: size > quarters(4n * count + 1n) ? 'full' : size < quarters(4n * count - 1n) ? 'scant' : '',
  };
}

/** Inch rules of halves, quarters … and all whose decimals never end. */
function isInFractions({ denominator }: Graduation, unit: Unit): boolean {
  const isBinary = (denominator & (denominator - 1)) === 0;
  return (unit === 'in' && isBinary) || TEN_TO_MOST_PLACES % denominator !== 0;
}

/** Twelve places write out every graduation of up to a thousand parts whose decimals end. */
const TEN_TO_MOST_PLACES = 10 ** 12;
