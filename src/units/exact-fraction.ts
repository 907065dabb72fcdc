import Fraction from 'fraction.js';

/** Bits kept of a quotient before it is rounded: more than the 53 of a double, so that it rounds once. */
const QUOTIENT_BITS = 64;

const bitLength = (whole: bigint): number => whole.toString(2).length;

/**
 * The double nearest to a fraction, rounded once (half to even), from 1e-280 up. Dividing numerator by denominator as
 * doubles may round three times, and the same length typed in two ways could then give two numbers.
 */
export function toDouble({ s, n, d }: Fraction): number {
  const shift = BigInt(Math.max(0, QUOTIENT_BITS - bitLength(n) + bitLength(d)));
  const scaled = n << shift;
  // A remainder sets the last bit, far below the rounding: only then does a halfway quotient round up.
  const rest = scaled % d === 0n ? 0n : 1n;
  return Number(s) * (Number((scaled / d) | rest) / 2 ** Number(shift)) + 0;
}

/** A finite double is a whole number over a power of two. */
export function exactFraction(value: number): Fraction {
  let whole = value;
  let denominator = 1n;
  // Ends: a double has at most 1074 binary places.
  while (!Number.isInteger(whole)) {
    whole *= 2;
    denominator *= 2n;
  }
  return new Fraction(BigInt(whole), denominator);
}
