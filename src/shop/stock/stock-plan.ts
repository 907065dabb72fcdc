import { isHanded } from '../../part/handedness.ts';
import { faceOf, volumeOf } from '../../part/outline/area-and-volume.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';
import { type Nesting, nest } from '../nesting/nest-copies.ts';
import { findKnownSpecies } from '../wood/find-species.ts';
import { bestGrainDirection, grainOnPart, remainingStrength, worstRunout } from '../wood/grain-runout.ts';
import type { Species } from '../wood/species.ts';
import { type Blank, type BoardSize, blankOf, boardFeet, cubicMetres } from './blank.ts';
import { footprintOf } from './footprint.ts';
import { type LayerChoice, layerChoices } from './lumber-thicknesses.ts';
import { weakestSection } from './weakest-section.ts';
import { massOf } from './weight.ts';

export interface StockPlanOptions {
  readonly boardLength?: number;
  readonly boardWidth?: number;
  readonly kerf?: number;
  readonly between?: number;
  /** Instead of the job's, radians counterclockwise from the reference line. */
  readonly grain?: number;
}

export type WoodPlan = ReturnType<typeof planWood>;

/** The wood of a part, and how its copies lie on boards. */
export interface StockPlan extends WoodPlan {
  /** Of a closed part. */
  readonly nesting?: Nesting;
  /** The saw cut between two copies, mm. */
  readonly kerf: number;
}

export interface WoodVolume {
  readonly boardFeet: number;
  readonly cubicMetres: number;
}

export interface WoodAmount extends WoodVolume {
  /** kg; absent for a wood whose figures are not known. */
  readonly weight?: { readonly species: Species; readonly part: number; readonly blank: number };
  readonly rough?: WoodVolume;
}

export type GrainAdvice = WoodPlan['grain'];

/** What most table and band saws cut, 1/8 in. Common practice, no published source. */
export const DEFAULT_KERF: Readonly<Record<Unit, number>> = { in: MM_PER_INCH / 8, mm: 3 };

/**
 * The wood, and its copies on boards.
 * @throws Fault `nesting.too-short`, `nesting.too-narrow`, `nesting.one-edge` (boards given for a line pattern)
 */
export function planStock(part: Part, wish: StockPlanOptions): StockPlan {
  const wood = planWood(part, wish);
  const kerf = wish.kerf ?? DEFAULT_KERF[part.rule.unit];
  const nesting = nestingOf(part, wood, { ...wish, kerf });
  return { ...wood, ...(nesting && { nesting }), kerf };
}

/** Plans the wood of a part without boards, since laying copies out takes far longer than all of this. */
export function planWood(part: Part, { grain: turn = grainOnPart(part) }: Pick<StockPlanOptions, 'grain'>) {
  const footprint = footprintOf(part, turn);
  const blank = blankOf(part, footprint);
  const { stock } = part;
  const layers =
    stock?.thickness === undefined ? undefined : layerChoices(stock.thickness, stock.layers, part.rule.unit);
  const amount = amountOf(part, blank, layers?.[0]);
  return {
    footprint,
    blank,
    ...(layers && { layers }),
    ...(amount && { amount }),
    grain: grainOf(part, turn, blank),
  };
}

function amountOf(part: Part, blank: Blank, layers: LayerChoice | undefined): WoodAmount | undefined {
  const solid = volumeOf(part);
  const { length, width, thickness } = blank;
  if (!solid || thickness === undefined) return undefined;
  const species = findKnownSpecies(part.stock?.species);
  const volumeIn = (size: BoardSize, count: number): WoodVolume => {
    return { boardFeet: count * boardFeet(size), cubicMetres: count * cubicMetres(size) };
  };
  return {
    ...volumeIn({ length, width, thickness }, 1),
    ...(species && {
      weight: {
        species,
        part: massOf(solid.volume, species),
        blank: massOf(length * width * thickness, species),
      },
    }),
    ...(layers && {
      rough: volumeIn({ length, width, thickness: layers.lumber.rough }, layers.count * part.quantity),
    }),
  };
}

function nestingOf(
  part: Part,
  { footprint, blank }: WoodPlan,
  wish: StockPlanOptions & { readonly kerf: number },
): Nesting | undefined {
  const { shape, stock } = part;
  // Plies are sawn, not the part.
  if (part.laminate) return undefined;
  if (shape.type !== 'closed') {
    if (wish.boardLength === undefined && wish.boardWidth === undefined) return undefined;
    throw new Fault(
      'nesting.one-edge',
      'the part has one edge, and only a part with two can be laid out on boards. Add the other edge.',
      wish.boardWidth === undefined ? '--board-length' : '--board-width',
    );
  }
  // Stock that does not take the saw line has its warning; the copies then lie as blanks would.
  const takes = (side: 'length' | 'width'): boolean => (stock?.[side] ?? footprint[side]) >= footprint[side];
  const fits = takes('length') && takes('width');
  const width = wish.boardWidth ?? (fits ? stock?.width : undefined);
  return nest(footprint, {
    quantity: part.quantity,
    area: faceOf(shape.outline).area,
    handed: isHanded(part),
    mirrored: part.pair === 'mirrored',
    kerf: wish.kerf,
    between: wish.between ?? 0,
    board: {
      length: wish.boardLength ?? (fits ? stock?.length : undefined) ?? blank.length,
      ...(width !== undefined && { width }),
    },
  });
}

/** Less runout saved than this is not worth a turned pattern, radians. */
const MIN_TURN_GAIN = Math.PI / 180;

function grainOf(part: Part, turn: number, blank: Blank) {
  const worst = worstRunout(part, turn);
  const section = weakestSection(part, blank.width);
  const best = bestGrainDirection(part);
  const { angle } = worstRunout(part, best);
  return {
    turn,
    worst,
    strength: remainingStrength(worst.angle),
    ...(section && { section }),
    // Narrower than the part, and not among its sections: their mortises hold them.
    tenons: part.shape.type === 'closed' ? part.shape.tenons : [],
    ...(angle < worst.angle - MIN_TURN_GAIN && {
      better: { turn: best, angle, width: footprintOf(part, best).width + blank.allowances.width },
    }),
  };
}
