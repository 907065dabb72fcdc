import type { EndAngles, Job, Stands } from '../../job/job.ts';
import type { Part } from '../part.ts';
import type { EndPlane } from './end-planes.ts';

/**
 * Both ends level with the floor. Up from the floor is (1, tan rake, tan splay) in the part's frame, the foot at the
 * left; a foot at the right turns the first about.
 */
function standingEnds(stands: Stands, upperEdge: string): NonNullable<Job['ends']> {
  const { foot, towardsEdge, towardsFace } = stands;
  const way = foot === 'left' ? 1 : -1;
  const toUpper = towardsEdge?.edge === upperEdge ? way : -way;
  const toFace = towardsFace?.face === 'reference-face' ? way : -way;
  const { rake, splay } = stanceOf(stands);
  // No end has a rake of -0.
  const cut: EndAngles =
    rake === 0 && splay === 0
      ? { by: 'square' }
      : { by: 'stance', rake: toUpper * rake + 0, splay: toFace * splay + 0 };
  return { left: cut, right: cut };
}

/** The job with the ends that its stance asks for. */
export const withStandingEnds = (job: Job, upperEdge: string): Job =>
  job.stands ? { ...job, ends: standingEnds(job.stands, upperEdge) } : job;

/**
 * The leans square to the leg's own sides. A leg whose face is level across is turned about its length: of plumb, of
 * length 1, the lean towards the face leaves sin b across the face, and the lean of both cos c along the leg.
 */
function stanceOf({ towardsEdge, towardsFace, twist }: Stands): { rake: number; splay: number } {
  const [a, b] = [towardsEdge?.by ?? 0, towardsFace?.by ?? 0];
  if (twist === 'none') return { rake: a, splay: b };
  const along = 1 / Math.sqrt(1 + Math.tan(a) ** 2 + Math.tan(b) ** 2);
  const through = Math.sin(b);
  const across = Math.sqrt(Math.max(0, 1 - along ** 2 - through ** 2));
  return { rake: Math.atan(across / along), splay: Math.atan(through / along) };
}

export interface FootOut {
  /** The name of an edge, or a face. */
  readonly towards: string;
  /** Radians. */
  readonly by: number;
  /** How far the foot is outside the top, level along the floor, mm. */
  readonly distance: number;
}

/** Towards an edge, then towards a face; none of a leg that stands upright. */
export function footOut({ stands, ends }: Pick<Part, 'stands' | 'ends'>): FootOut[] {
  if (!stands || !ends) return [];
  const height = heightBetween(ends);
  const out = (towards: string, by: number): FootOut => ({ towards, by, distance: height * Math.tan(by) });
  const { towardsEdge, towardsFace } = stands;
  return [
    ...(towardsEdge ? [out(towardsEdge.edge, towardsEdge.by)] : []),
    ...(towardsFace ? [out(towardsFace.face, towardsFace.by)] : []),
  ];
}

/** Of the top over the floor, mm: two parallel planes. */
function heightBetween([left, right]: readonly [EndPlane, EndPlane]): number {
  const { rake, splay } = left.angles;
  const normal = Math.hypot(1, Math.cos(rake) * Math.tan(splay));
  return Math.abs(right.reach - left.reach) / normal;
}
