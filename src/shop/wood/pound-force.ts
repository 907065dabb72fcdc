import { MM_PER_INCH } from '../../units/unit.ts';

/** Newtons in a pound-force (standard gravity): exact by definition. */
export const NEWTONS_IN_LBF = 4.4482216152605;

/** Megapascals in a pound-force per square inch. */
export const MPA_IN_PSI = NEWTONS_IN_LBF / MM_PER_INCH ** 2;
