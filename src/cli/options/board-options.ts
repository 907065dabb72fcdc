import type { Part } from '../../part/part.ts';
import type { Nesting } from '../../shop/nesting/nest-copies.ts';
import type { StockPlan, StockPlanOptions } from '../../shop/stock/stock-plan.ts';
import { Fault } from '../../units/fault.ts';
import { parseAngle } from '../../units/parse-angle.ts';
import { atOption, type OptionValues, optional, readLengths } from './option-spec.ts';

export const BOARD_OPTIONS = optional({
  '--board-width <length>':
    'of the boards to cut from (default: that of the job’s stock, else what the copies need)',
  '--board-length <length>':
    'of the boards to cut from (default: that of the job’s stock, else that of the blank)',
  '--kerf <length>': 'what the saw takes between two parts (default: 1/8 in or 3 mm)',
  '--between <length>': 'left between two parts besides the kerf (default: nothing)',
  '--grain <angle>':
    'which way the grain runs on the part, counter-clockwise from the reference line: degrees, or a slope such ' +
    'as "1 in 12" (default: along the reference line)',
});

export type BoardOptions = OptionValues<typeof BOARD_OPTIONS>;

export function requireNesting({ nesting }: StockPlan, option: string): Nesting {
  if (nesting) return nesting;
  const wording =
    'one edge is a line on a board, and there is no part to lay out. Set out the other edge too, or leave this out.';
  throw new Fault('nesting.one-edge', wording, option);
}

export function readStockOptions({ rule }: Part, options: BoardOptions): StockPlanOptions {
  const { grain } = options;
  return {
    ...readLengths(options, ['boardLength', 'boardWidth'], rule.unit),
    ...readLengths(options, ['kerf', 'between'], rule.unit, 'not-negative'),
    ...(grain !== undefined && { grain: atOption('--grain', () => parseAngle(grain, '90')) }),
  };
}
