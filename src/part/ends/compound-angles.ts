import type { EndAngles } from '../../job/job.ts';

/** One lean told in every way a shop asks for it, radians. */
export interface CompoundAngles {
  /** Of the cut line on the face, off square across. */
  readonly miter: number;
  readonly bevel: number;
  readonly rake: number;
  readonly splay: number;
  /** Between the part's length and the plumb line, in the plane of both. */
  readonly lean: number;
  /** Which way it leans, seen along the part: from the reference edge's side (0) towards the face (π/2). */
  readonly sight: number;
}

/**
 * By the plumb line in the part's frame, v = (1, tan rake, tan splay), square to the cut: the blade's tilt is asin(v_z
 * ÷ |v|). Miter and bevel give tan splay = tan bevel ÷ cos miter.
 */
export function compoundAngles(end: EndAngles): CompoundAngles {
  if (end.by === 'square') return { miter: 0, bevel: 0, rake: 0, splay: 0, lean: 0, sight: 0 };
  const rake = end.by === 'stance' ? end.rake : end.miter;
  const outward = end.by === 'stance' ? Math.tan(end.splay) : Math.tan(end.bevel) / Math.cos(end.miter);
  const across = Math.tan(rake);
  return {
    miter: rake,
    bevel: end.by === 'miter' ? end.bevel : Math.atan(outward * Math.cos(rake)),
    rake,
    splay: Math.atan(outward),
    lean: Math.atan(Math.hypot(across, outward)),
    sight: Math.atan2(outward, across),
  };
}

/**
 * What the elevations read once the leg is turned about the plumb line until a level line across the marked face is
 * square to the view that shows its splay: sin(splay) = v_z ÷ |v|, the bevel.
 */
export function levelFaceStance({
  rake,
  bevel,
  lean,
}: CompoundAngles): Pick<CompoundAngles, 'rake' | 'splay'> {
  const across = Math.sqrt(Math.max(0, Math.tan(lean) ** 2 - Math.tan(bevel) ** 2));
  return { rake: Math.sign(rake) * Math.atan(across), splay: bevel };
}

/** mm */
export const bladeDepth = (thickness: number, bevel: number): number => thickness / Math.cos(bevel);
