/** The two units a job is written in. Inside, every length is millimetres. */
export type Unit = 'in' | 'mm';

/** Millimetres in an inch: exact by definition (international yard and pound agreement, 1959). */
export const MM_PER_INCH = 25.4;
