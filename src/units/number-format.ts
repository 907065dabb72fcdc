import { MM_PER_INCH, type Unit, withUnit } from './unit.ts';

/** A length of so many mm, in its unit. */
export const inUnit = (mm: number, unit: Unit): number => (unit === 'in' ? mm / MM_PER_INCH : mm);

/** At most so many places: "0.5", "12", never "-0". */
export const trimmed = (value: number, places: number): string => String(Number(value.toFixed(places)) + 0);

/** A number as people read it; programs read a hyphen. */
export const trueMinus = (number: string): string => number.replace(/^-/, '−');

/** As off a caliper: "0.286\"", "9.74 mm". */
export const showFine = (mm: number, unit: Unit): string =>
  withUnit(trimmed(inUnit(mm, unit), unit === 'in' ? 3 : 2), unit);

/** A length to a fixed number of places: "0.043\"", "1.1 mm". */
export const showFixed = (mm: number, unit: Unit, places: Readonly<Record<Unit, number>>): string =>
  withUnit(inUnit(mm, unit).toFixed(places[unit]), unit);

/** Two significant figures, for a length that no rule shows: "0.12 mm". */
export const showTwoFigures = (mm: number, unit: Unit): string =>
  withUnit(String(Number(inUnit(mm, unit).toPrecision(2))), unit);

/** For a reader without a unit yet: "12.345 mm". */
export const showMillimeters = (mm: number): string => `${trimmed(mm, 3)} mm`;

/** Fewer places the larger the value: 0.42, 3.1, 130; whole from `wholeFrom` on. */
export const showMagnitude = (value: number, wholeFrom: number): string =>
  value.toFixed(value >= wholeFrom ? 0 : value >= 1 ? 1 : 2);

/** A share: "0.43%". */
export const showPercent = (share: number, places = 0): string => `${(share * 100).toFixed(places)}%`;

/** From radians. */
export const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** An angle in degrees, to a tenth, finer than a saw's scale: "6°", "7.5°", "−4°". */
export const showAngle = (radians: number): string => `${trueMinus(trimmed(degrees(radians), 1))}°`;

/** "1 sheet", "3 sheets". */
export const showCount = (count: number, noun: string, plural = `${noun}s`): string =>
  `${count} ${count === 1 ? noun : plural}`;

export const capitalize = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
