import type { Part } from '../../part/part.ts';
import { type Bend, type Corner, cornersOf, type SawnEdge, tightestBends } from './bends-and-corners.ts';
import { BLADES, type Blade, COMMON_KERF_MM, type Kerf, leastRadius, widestBlade } from './blades.ts';

/** What the line to saw asks of a band-saw blade. */
export interface BladeAdvice {
  /** The tightest of either sort, as tight as each other; empty where nothing bends so. */
  readonly hollows: readonly Bend[];
  readonly rounds: readonly Bend[];
  readonly corners: readonly Corner[];
  /** The widest blade of the chart that turns every bend; absent where none does. */
  readonly widest?: Blade;
  /** Of the tightest hollows and rounds those that no blade of the chart turns. */
  readonly beyond: readonly Bend[];
  readonly asked?: AskedBlade;
}

/** The maker's own blade against the line. */
export interface AskedBlade {
  readonly width: number;
  readonly leastRadius: number;
  readonly kerf?: Kerf;
  /** Of the tightest hollows and rounds those that it does not turn. */
  readonly tooTight: readonly Bend[];
}

export interface BladeAsk {
  readonly width?: number;
  readonly kerf?: Kerf;
}

/** Which blade saws the line, and whether the maker's own does. */
export function adviseBlade(part: Part, edges: readonly SawnEdge[], { width, kerf }: BladeAsk): BladeAdvice {
  const hollows = tightestBends(edges, 'hollow', part.sawAllowance);
  const rounds = tightestBends(edges, 'round', part.sawAllowance);
  const bends = [...hollows, ...rounds];
  const turned = (bend: Bend): number => kerfRadius(bend, kerf?.kerf ?? COMMON_KERF_MM);
  const widest = widestBlade(Math.min(Number.MAX_VALUE, ...bends.map(turned)));
  const asked = width === undefined ? undefined : askedBlade(width, kerf, bends, turned);
  return {
    hollows,
    rounds,
    corners: cornersOf(edges),
    ...(widest && { widest }),
    beyond: bends.filter((bend) => !widestBlade(turned(bend))),
    ...(asked && { asked }),
  };
}

/**
 * The radius that the blade itself goes round, mm. It follows the middle of its kerf, and the kerf lies in the
 * waste with one side on the line: half a kerf farther in round a hollow, half a kerf farther out round a round.
 */
export const kerfRadius = ({ kind, radius }: Bend, kerf: number): number =>
  kind === 'hollow' ? radius - kerf / 2 : radius + kerf / 2;

function askedBlade(
  width: number,
  kerf: Kerf | undefined,
  bends: readonly Bend[],
  turned: (bend: Bend) => number,
): AskedBlade {
  const least = leastRadius(width, kerf);
  return {
    width,
    leastRadius: least,
    ...(kerf && { kerf }),
    tooTight: bends.filter((bend) => turned(bend) < least),
  };
}

/** Whether every blade of the chart turns the line. */
export const anyBladeTurns = ({ widest }: BladeAdvice): boolean => widest === BLADES.at(-1);
