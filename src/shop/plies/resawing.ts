import type { Part } from '../../part/part.ts';
import { graduationMm } from '../../units/graduation.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';
import { boardFeet, cubicMetres } from '../stock/blank.ts';
import { chooseLumber, type LayerChoice } from '../stock/lumber-thicknesses.ts';
import { DEFAULT_KERF, type WoodVolume } from '../stock/stock-plan.ts';
import type { Lamination } from '../strip/lamination.ts';

export interface ResawingOptions {
  readonly boardLength?: number;
  readonly boardWidth?: number;
  readonly kerf?: number;
}

/** Plies are sawn off the edge of a board that is as thick as they are wide; mm. */
export interface Resawing {
  /** Of all copies. */
  readonly plies: number;
  /** How long each is cut: the longest. */
  readonly length: number;
  /** Wider than the part, for cleaning its faces after the glue; absent where the job gives no thickness. */
  readonly width?: number;
  readonly kerf: number;
  /** What planing or sanding both faces of a ply takes. */
  readonly planing: number;
  /** As sawn: the ply and its planing. */
  readonly sawn: number;
  /** What each ply takes of the width of the board. */
  readonly pitch: number;
  /** The share of the board that becomes saw dust and shavings. */
  readonly loss: number;
  /** Of board width for one part. */
  readonly widthForOne: number;
  /** The rough board that is thick enough, and what all copies need of it. */
  readonly lumber?: LayerChoice;
  readonly rough?: WoodVolume;
  readonly boards?: BoardsOfPlies;
}

export interface BoardsOfPlies {
  readonly length: number;
  readonly width: number;
  /** Side by side, and end to end; 0 where the board is too small. */
  readonly across: number;
  readonly along: number;
  /** How many boards all copies need; absent where none is large enough. */
  readonly count?: number;
}

/** Both faces together: 1/16 in, 1.5 mm. Common practice, no published source. */
const PLANING: Readonly<Record<Unit, number>> = { in: MM_PER_INCH / 16, mm: 1.5 };

/** For planing glue and slipped edges off: 1/8 in, 3 mm. Common practice, no published source. */
const EXTRA_WIDTH: Readonly<Record<Unit, number>> = { in: MM_PER_INCH / 8, mm: 3 };

/** How plies of this length, mm, are sawn for all copies of a part. */
export function planResawing(
  part: Part,
  lamination: Lamination,
  longest: number,
  wish: ResawingOptions,
): Resawing {
  const { rule, stock, quantity, widthAllowance = EXTRA_WIDTH[rule.unit] } = part;
  const kerf = wish.kerf ?? DEFAULT_KERF[rule.unit];
  const planing = PLANING[rule.unit];
  const { plyThickness } = lamination;
  const sawn = plyThickness + planing;
  const pitch = sawn + kerf;
  const plies = lamination.plies * quantity;
  const mark = graduationMm(rule);
  // A ply may be too long, never too short.
  const length = Math.ceil(longest / mark - ROUNDING) * mark;
  const width = stock?.thickness === undefined ? undefined : stock.thickness + widthAllowance;
  const lumber = width === undefined ? undefined : chooseLumber(width, 1, rule.unit);
  const board = { length: wish.boardLength ?? stock?.length, width: wish.boardWidth ?? stock?.width };
  const size = lumber && { length, width: plies * pitch, thickness: lumber.lumber.rough };
  return {
    plies,
    length,
    ...(width !== undefined && { width }),
    kerf,
    planing,
    sawn,
    pitch,
    loss: 1 - plyThickness / pitch,
    widthForOne: lamination.plies * pitch,
    ...(lumber && { lumber }),
    ...(size && { rough: { boardFeet: boardFeet(size), cubicMetres: cubicMetres(size) } }),
    ...(board.length !== undefined &&
      board.width !== undefined && {
        boards: boardsOf({ length: board.length, width: board.width }, { plies, length, pitch, kerf }),
      }),
  };
}

/** A length on a mark is not rounded up by the rounding of a double. */
const ROUNDING = 1e-9;

function boardsOf(
  board: { readonly length: number; readonly width: number },
  { plies, length, pitch, kerf }: Pick<Resawing, 'plies' | 'length' | 'pitch' | 'kerf'>,
): BoardsOfPlies {
  const across = Math.floor(board.width / pitch + ROUNDING);
  const along = Math.floor((board.length + kerf) / (length + kerf) + ROUNDING);
  const each = across * along;
  return { ...board, across, along, ...(each > 0 && { count: Math.ceil(plies / each) }) };
}
