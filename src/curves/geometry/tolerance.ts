/** A fitted path's error, mm: unseen, as a pencil line is 0.3 mm wide and a printer places ink to about 0.05 mm. */
export const FIT_MM = 0.005;

/** Points closer than this are the same, mm: far above rounding (1e-12 of a 10 m part), far below any mark of a maker. */
export const JOIN_MM = 1e-5;
