/** The two units a job is written in. Inside, every length is in millimeters. */
export type Unit = 'in' | 'mm';

/** Millimeters in an inch: exact by definition (international yard and pound agreement, 1959). */
export const MM_PER_INCH = 25.4;

/** A number as written, with its unit: "3 1/16\"", "312.5 mm". */
export const withUnit = (number: string, unit: Unit): string => `${number}${unit === 'in' ? '"' : ' mm'}`;

export const MM3_PER_M3 = 1e9;

/** Newtons in a pound-force (standard gravity): exact by definition. */
export const NEWTONS_PER_LBF = 4.4482216152605;

/** Megapascals in a pound-force per square inch. */
export const MPA_PER_PSI = NEWTONS_PER_LBF / MM_PER_INCH ** 2;

/** Kilograms in a pound: exact by definition. */
export const KG_PER_LB = 0.45359237;
