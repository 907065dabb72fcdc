/**
 * How far a fitted Bézier path may lie from the exact curve, mm. A sharp pencil line is 0.3 mm wide
 * and a desktop printer places ink to about 0.05 mm, so the fit never adds an error that can be seen.
 */
export const FIT_MM = 0.005;

/**
 * Two points closer than this are the same point, mm: a thousandth of the fit tolerance, far above
 * rounding (1e-12 of a 10 m part) and far below anything a maker can mark.
 */
export const JOIN_MM = 1e-5;
