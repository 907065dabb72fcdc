import type { PartEnd } from '../../part/ends/end-planes.ts';
import { isStraight, type SawnEdge } from './bends-and-corners.ts';

/** The miter gauge and the blade for an end, with the reference face up, seen from the infeed side. */
export interface EndSetUp {
  /** The edge against the miter gauge; absent: the board's own, on the side of the reference line. */
  readonly edge?: string;
  /** Of the gauge, radians, over 0 clockwise seen from above. */
  readonly swing: number;
  /** Of the blade as it rises, radians, over 0 to the left. */
  readonly tilt: number;
}

/** Half a turn about the vertical puts the other edge against the miter gauge: the swing is the same, the tilt the opposite. */
export function endSetUp({ angles: { miter, bevel } }: PartEnd, edges: readonly SawnEdge[]): EndSetUp {
  const straight = edges.find(isStraight);
  if (!straight) return { swing: miter, tilt: bevel };
  return { edge: straight.name, swing: miter, tilt: straight.woodIsAbove ? bevel : -bevel };
}

export const leanOfBlade = ({ tilt }: EndSetUp): 'left' | 'right' | undefined =>
  tilt === 0 ? undefined : tilt > 0 ? 'left' : 'right';
