/**
 * How far a fitted Bézier path may lie from the exact curve, mm. A sharp pencil line is 0.3 mm wide and a desktop
 * printer places ink to about 0.05 mm, so nobody can see the error of the fit.
 */
export const FIT_MM = 0.005;

/** Points closer than this are the same, mm: far above rounding (1e-12 of a 10 m part), far below any mark of a maker. */
export const JOIN_MM = 1e-5;
