import type { Part } from '../../part/part.ts';
import { type Bend, cornersOf, type LineCorner, type SawnEdge, tightestBends } from './bends-and-corners.ts';
import { BLADES, type Blade, COMMON_KERF_MM, type Kerf, minBladeRadius, widestBlade } from './blades.ts';

export interface BladeAdvice {
  /** The tightest ones, as tight as each other; `rounds` likewise. */
  readonly hollows: readonly Bend[];
  readonly rounds: readonly Bend[];
  readonly corners: readonly LineCorner[];
  readonly widest?: Blade;
  readonly tooTightForAny: readonly Bend[];
  readonly ownBlade?: OwnBlade;
}

export interface OwnBlade {
  readonly width: number;
  readonly minRadius: number;
  readonly kerf?: Kerf;
  readonly tooTight: readonly Bend[];
}

export interface BladeOptions {
  readonly width?: number;
  readonly kerf?: Kerf;
}

/** Finds the blade for the saw line, and compares the maker's own. */
export function adviseBlade(
  part: Part,
  edges: readonly SawnEdge[],
  { width, kerf }: BladeOptions,
): BladeAdvice {
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
