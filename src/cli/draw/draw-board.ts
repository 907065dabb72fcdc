import type { FullSizeOptions } from '../../export/full-size/compose-full-size.ts';
import type { FullSize } from '../../export/full-size/full-size.ts';
import { fullSizeOnBoard } from '../../export/full-size/full-size-on-board.ts';
import type { Part } from '../../part/part.ts';
import { planStock } from '../../shop/stock/stock-plan.ts';
import { Fault } from '../../units/fault.ts';
import { type BoardOptions, readStockOptions, requireNesting } from '../options/board-options.ts';

export interface DrawnBoard {
  readonly number: number;
  readonly of: number;
  readonly length: number;
  readonly width: number;
  readonly copies: number;
  readonly gap: number;
}

/** Lays out the whole quantity, and draws the board of this number. */
export function drawBoard(
  part: Part,
  options: BoardOptions & { readonly board?: string },
  fullSizeOptions: Omit<FullSizeOptions, 'mirror'>,
): { readonly full: FullSize; readonly board: DrawnBoard } {
  const number = parseBoardNumber(options.board);
  const nesting = requireNesting(planStock(part, readStockOptions(part, options)), '--nest');
  const full = fullSizeOnBoard(part, nesting, { ...fullSizeOptions, board: number });
  const { board, boards, gap } = nesting;
  return { full, board: { number, of: boards, ...board, copies: full.copies.length, gap } };
}

function parseBoardNumber(typed = '1'): number {
  if (/^[1-9]\d{0,5}$/.test(typed)) return Number(typed);
  throw new Fault('draw.board', `"${typed}" is no board. Give its number: 1, 2, 3.`, '--board');
}
