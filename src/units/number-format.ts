import { MM_PER_INCH, type Unit } from './unit.ts';

/** A length of so many mm, in its unit. */
export const inUnit = (mm: number, unit: Unit): number => (unit === 'in' ? mm / MM_PER_INCH : mm);

/** At most so many places: "0.5", "12", never "-0". */
export const trimmed = (value: number, places: number): string => String(Number(value.toFixed(places)) + 0);

/** As off a caliper: "0.286 in", "9.74 mm". */
export const showFine = (mm: number, unit: Unit): string =>
  `${trimmed(inUnit(mm, unit), unit === 'in' ? 3 : 2)} ${unit}`;

/** A length to a fixed number of places: "0.043 in", "1.1 mm". */
export const showFixed = (mm: number, unit: Unit, places: Readonly<Record<Unit, number>>): string =>
  `${inUnit(mm, unit).toFixed(places[unit])} ${unit}`;

/** Two significant figures, for a length that no rule shows: "0.12 mm". */
export const showTwoFigures = (mm: number, unit: Unit): string =>
  `${Number(inUnit(mm, unit).toPrecision(2))} ${unit}`;

/** For a reader without a unit yet: "12.345 mm". */
export const showMillimeters = (mm: number): string => `${trimmed(mm, 3)} mm`;

/** Fewer places the larger the value: 0.42, 3.1, 130; whole from `wholeFrom` on. */
export const showMagnitude = (value: number, wholeFrom: number): string =>
  value.toFixed(value >= wholeFrom ? 0 : value >= 1 ? 1 : 2);

/** A share, with the space that ISO 80000-1 and the SI brochure put before the sign: "0.43 %". */
export const showPercent = (share: number, places = 0): string => `${(share * 100).toFixed(places)} %`;

/** From radians. */
export const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** An angle in degrees, to a tenth, finer than a saw's scale: "6°", "7.5°", "-4°". */
export const showAngle = (radians: number): string => `${trimmed(degrees(radians), 1)}°`;

/** The same with a true minus sign, as on paper: "7.5°", "−4°". */
export const typesetAngle = (radians: number): string => showAngle(radians).replace('-', '−');

/** "1 sheet", "3 sheets". */
export const showCount = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? '' : 's'}`;

export const capitalize = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
