import type { Part } from '../../part/part.ts';
import { type Bend, cornersOf, type LineCorner, type SawnEdge, tightestBends } from './bends-and-corners.ts';
import { BLADES, type Blade, COMMON_KERF_MM, type Kerf, minBladeRadius, widestBlade } from './blades.ts';

/** What the line to saw asks of a band-saw blade. */
export interface BladeAdvice {
  /** The tightest of either sort, as tight as each other; empty where nothing bends so. */
  readonly hollows: readonly Bend[];
  readonly rounds: readonly Bend[];
  readonly corners: readonly LineCorner[];
  /** The widest blade of the chart that turns every bend; absent where none does. */
  readonly widest?: Blade;
  /** Of the tightest hollows and rounds those that no blade of the chart turns. */
  readonly tooTightForAny: readonly Bend[];
  readonly ownBlade?: OwnBlade;
}

/** The maker's own blade against the line. */
export interface OwnBlade {
  readonly width: number;
  readonly minRadius: number;
  readonly kerf?: Kerf;
  /** Of the tightest hollows and rounds those that it does not turn. */
  readonly tooTight: readonly Bend[];
}

export interface BladeOptions {
  readonly width?: number;
  readonly kerf?: Kerf;
}

/** Which blade saws the line, and whether the maker's own does. */
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
  const ownBlade = width === undefined ? undefined : checkOwnBlade(width, kerf, bends, turned);
  return {
    hollows,
    rounds,
    corners: cornersOf(edges),
    ...(widest && { widest }),
    tooTightForAny: bends.filter((bend) => !widestBlade(turned(bend))),
    ...(ownBlade && { ownBlade }),
  };
}

/**
 * The radius that the blade itself goes round, mm. It follows the middle of its kerf, and the kerf lies in the
 * waste with one side on the line: half a kerf farther in round a hollow, half a kerf farther out round a round.
 */
export const kerfRadius = ({ kind, radius }: Bend, kerf: number): number =>
  kind === 'hollow' ? radius - kerf / 2 : radius + kerf / 2;

function checkOwnBlade(
  width: number,
  kerf: Kerf | undefined,
  bends: readonly Bend[],
  turned: (bend: Bend) => number,
): OwnBlade {
  const least = minBladeRadius(width, kerf);
  return {
    width,
    minRadius: least,
    ...(kerf && { kerf }),
    tooTight: bends.filter((bend) => turned(bend) < least),
  };
}

/** Whether every blade of the chart turns the line. */
export const everyBladeTurns = ({ widest }: BladeAdvice): boolean => widest === BLADES.at(-1);
