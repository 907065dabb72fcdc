import { pathBox } from '../curves/box.ts';
import type { Box } from '../curves/curve.ts';
import type { Point } from '../curves/point.ts';
import { finishedLine } from '../part/finished-line.ts';
import type { Part } from '../part/part.ts';
import { faceOf, volumeOf } from '../part/solid.ts';
import { Fault, type Warning } from '../units/fault.ts';
import { findSpecies } from './find-species.ts';
import type { Species } from './species.ts';

/** Water, kg/m³, and the moisture that the figures are for. */
const WATER = 1000;
const MOISTURE = 0.12;
/** Wood shrinks below 30 % moisture; this share of it is gone at 12 %. */
const DRIED = (0.3 - MOISTURE) / 0.3;

/**
 * Kilograms in a cubic metre at 12 % moisture: the specific gravity on the volume at 12 %, and the water in the wood.
 * An import's is on green volume (Table 5-5b), which shrinks by 0.265 × its specific gravity until oven dry (Wood
 * Handbook, chapter 4, from memory).
 */
export function densityOf({ specificGravity: g, source }: Species): number {
  const dried = source.table === '5-5b' ? g / (1 - 0.265 * DRIED * g) : g;
  return WATER * dried * (1 + MOISTURE);
}

/** What is lifted onto the saw, and what comes off it. */
export interface Weights {
  /** The board the part is sawn from, as it lies under the part. */
  readonly board: Box;
  readonly boardBalance: Point;
  /** Of a closed part: of the finished part; of one line on a board, the board's. */
  readonly balance: Point;
  readonly boardMass?: number;
  readonly partMass?: number;
}

/** What a job must say for its weight. */
export function weightMissing({ stock }: Part): Warning[] {
  const missing = (code: string, message: string): Warning => ({ code, message });
  const words: Warning[] = [];
  if (stock?.thickness === undefined)
    words.push(
      missing(
        'saw.no-thickness',
        'the thickness is not known, and with it the weight and the depth of cut. Write "thickness: 1 3/4" under stock.',
      ),
    );
  if (stock?.species === undefined)
    words.push(
      missing(
        'saw.no-species',
        'the wood is not known, and so not its weight. Write "species: white oak" under stock.',
      ),
    );
  else if (typeof woodOf(stock.species) === 'string')
    words.push(
      missing('saw.unknown-species', `${woodOf(stock.species)} Without it the weight is not known.`),
    );
  return words;
}

function woodOf(name: string): Species | string {
  try {
    return findSpecies(name);
  } catch (error) {
    if (error instanceof Fault) return error.message;
    throw error;
  }
}

export function weigh(part: Part): Weights {
  const { shape, stock } = part;
  const board = boardUnder(part);
  const boardBalance = { x: (board.left + board.right) / 2, y: (board.bottom + board.top) / 2 };
  const solid = volumeOf(part);
  const face = shape.type === 'closed' ? faceOf(finishedLine(shape)) : undefined;
  const density = densityAsTold(part);
  const hasBoard = shape.type === 'closed' || stock?.width !== undefined;
  const boardFace = (board.right - board.left) * (board.top - board.bottom);
  const perFace =
    density === undefined || stock?.thickness === undefined ? undefined : density * stock.thickness;
  return {
    board,
    boardBalance,
    balance: solid?.centroid ?? face?.centroid ?? boardBalance,
    ...(perFace !== undefined && hasBoard && { boardMass: boardFace * perFace }),
    ...(density !== undefined && solid && { partMass: solid.volume * density }),
  };
}

const MM3_PER_M3 = 1e9;

/** Kilograms in a cubic millimetre; undefined where the job does not tell a wood whose figures are known. */
function densityAsTold({ stock }: Part): number | undefined {
  const wood = woodOf(stock?.species ?? '');
  return typeof wood === 'string' ? undefined : densityOf(wood) / MM3_PER_M3;
}

/**
 * Where the board lies: the part in the middle of it, or, under one line, its edge on the reference line. Where the
 * job gives no size the board is as large as the lines.
 */
function boardUnder({ shape, bounds, stock }: Part): Box {
  const lines = pathBox([...finishedLine(shape)]);
  const box = shape.type === 'closed' ? bounds : lines;
  const [length, width] = [box.right - box.left, box.top - box.bottom];
  const more = Math.max(0, (stock?.length ?? 0) - length) / 2;
  const along = { left: box.left - more, right: box.right + more };
  if (shape.type !== 'closed') {
    const reach = Math.max(stock?.width ?? 0, Math.abs(box.top), Math.abs(box.bottom));
    return box.bottom + box.top < 0
      ? { ...along, bottom: -reach, top: 0 }
      : { ...along, bottom: 0, top: reach };
  }
  const wider = Math.max(0, (stock?.width ?? 0) - width) / 2;
  return { ...along, bottom: box.bottom - wider, top: box.top + wider };
}
