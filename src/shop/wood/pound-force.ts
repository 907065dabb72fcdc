import { MM_PER_INCH } from '../../units/unit.ts';

/** Newtons in a pound-force (standard gravity): exact by definition. */
export const NEWTONS_PER_LBF = 4.4482216152605;

/** Megapascals in a pound-force per square inch. */
export const MPA_PER_PSI = NEWTONS_PER_LBF / MM_PER_INCH ** 2;
