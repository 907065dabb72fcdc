import { type Box, pathBounds } from '../../curves/geometry/bounds.ts';
import { faceOf, volumeOf } from '../../part/outline/area-and-volume.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { type Warning, warningsThatApply } from '../../units/fault.ts';
import { MM3_PER_M3 } from '../../units/unit.ts';
import { findKnownSpecies } from '../wood/find-species.ts';
import type { Species } from '../wood/species.ts';
import { blankOf } from './blank.ts';

export type BoardWeights = ReturnType<typeof weighPart>;

export function missingWeightWarnings({ stock }: Part): Warning[] {
  const noThickness =
    'the weight and the depth of cut need the thickness. Write "thickness: 1 3/4" under "stock".';
  const noSpecies = 'the weight needs the species. Write "species: white oak" under "stock".';
  return warningsThatApply([
    [stock?.thickness === undefined, 'saw.no-thickness', noThickness],
    [stock?.species === undefined, 'saw.no-species', noSpecies],
  ]);
}

/** What a part and the board under it weigh, and where each balances. */
export function weighPart(part: Part) {
  const { shape, stock } = part;
  const board = boardUnder(part);
  const boardBalance = { x: (board.left + board.right) / 2, y: (board.bottom + board.top) / 2 };
  const solid = volumeOf(part);
  const face = shape.type === 'closed' ? faceOf(finishedLine(shape)) : undefined;
  const species = findKnownSpecies(stock?.species);
  const hasBoard = shape.type === 'closed' || stock?.width !== undefined;
  const { length, width } = sizeOf(board);
  return {
    board,
    boardBalance,
    balance: solid?.centroid ?? face?.centroid ?? boardBalance,
    ...(species &&
      stock?.thickness !== undefined &&
      hasBoard && { boardMass: massOf(length * width * stock.thickness, species) }),
    ...(species && solid && { partMass: massOf(solid.volume, species) }),
  };
}

const sizeOf = ({ left, right, bottom, top }: Box) => ({ length: right - left, width: top - bottom });

/**
 * The blank of one part, cut from the stock before the saw: the part lies in its middle, and it is no larger than the
 * stock. Under one line the whole width of the stock lies, its edge on the reference line.
 */
function boardUnder(part: Part): Box {
  const { shape, bounds, stock } = part;
  const box = shape.type === 'closed' ? bounds : pathBounds(finishedLine(shape));
  const { length, width } = sizeOf(box);
  const blank = blankOf(part, { length, width });
  const more = moreThan(length, blank.length, stock?.length);
  const along = { left: box.left - more, right: box.right + more };
  if (shape.type !== 'closed') {
    const reach = Math.max(stock?.width ?? 0, Math.abs(box.top), Math.abs(box.bottom));
    const isBelow = box.bottom + box.top < 0;
    return { ...along, bottom: isBelow ? -reach : 0, top: isBelow ? 0 : reach };
  }
  const wider = moreThan(width, blank.width, stock?.width);
  return { ...along, bottom: box.bottom - wider, top: box.top + wider };
}

/** On either side, mm. */
const moreThan = (size: number, blank: number, stock = Number.POSITIVE_INFINITY): number =>
  Math.max(0, Math.min(blank, stock) - size) / 2;

/** Water, kg/m³, and the moisture that the figures of the woods stand for: indoor furniture has 6 to 12%. */
const WATER_DENSITY = 1000;
const MOISTURE = 0.12;
/** Wood shrinks below 30% moisture; this share of it is gone at 12%. */
const SHRINKAGE_SHARE = (0.3 - MOISTURE) / 0.3;

/**
 * kg/m³ at 12% moisture: the specific gravity at that volume and the water (Wood Handbook, chapter on physical
 * properties). An import's is on green volume (Table 5-5b), which shrinks by 0.265 × it until dry (chapter 4, from
 * memory).
 */
export function densityOf({ specificGravity: g, source }: Species): number {
  const dried = source.table === '5-5b' ? g / (1 - 0.265 * SHRINKAGE_SHARE * g) : g;
  return WATER_DENSITY * dried * (1 + MOISTURE);
}

/** kg of so many mm³. */
export const massOf = (volume: number, species: Species): number =>
  (volume / MM3_PER_M3) * densityOf(species);
