import type { Part } from '../../part/part.ts';
import { type Bend, cornersOf, type SawnEdge, tightestBends } from './bends-and-corners.ts';
import { BLADES, COMMON_KERF_MM, type Kerf, minBladeRadius, widestBlade } from './blades.ts';

export type BladeAdvice = ReturnType<typeof adviseBlade>;

export interface OwnBlade extends BladeOptions {
  readonly width: number;
  readonly minRadius: number;
  readonly tooTight: readonly Bend[];
}

export interface BladeOptions {
  readonly width?: number;
  readonly kerf?: Kerf;
}

/** Finds the blade for the saw line, and compares the maker's own. */
export function adviseBlade(part: Part, edges: readonly SawnEdge[], { width, kerf }: BladeOptions) {
  const hollows = tightestBends(edges, 'hollow', part.sawAllowance);
  const rounds = tightestBends(edges, 'round', part.sawAllowance);
  const bends = [...hollows, ...rounds];
  const turned = (bend: Bend): number => kerfRadius(bend, kerf?.kerf ?? COMMON_KERF_MM);
  const widest = widestBlade(Math.min(Number.MAX_VALUE, ...bends.map(turned)));
  const minRadius = width === undefined ? 0 : minBladeRadius(width, kerf);
  const tooTight = bends.filter((bend) => turned(bend) < minRadius);
  return {
    hollows,
    rounds,
    corners: cornersOf(edges),
    ...(widest && { widest }),
    tooTightForAny: bends.filter((bend) => !widestBlade(turned(bend))),
    ...(width !== undefined && { ownBlade: { width, minRadius, ...(kerf && { kerf }), tooTight } }),
  };
}

/** Radius of the kerf's middle, mm. The kerf lies in the waste beside the line: inside a hollow, outside a round. */
export const kerfRadius = ({ kind, radius }: Bend, kerf: number): number =>
  kind === 'hollow' ? radius - kerf / 2 : radius + kerf / 2;

export const everyBladeTurns = ({ widest }: BladeAdvice): boolean => widest === BLADES.at(-1);
