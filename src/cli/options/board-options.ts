import type { Part } from '../../part/part.ts';
import type { Nesting } from '../../shop/nesting/nest-copies.ts';
import type { StockPlan, StockPlanOptions } from '../../shop/stock/stock-plan.ts';
import { Fault } from '../../units/fault.ts';
import { parseAngle } from '../../units/parse-angle.ts';
import { atOption, type OptionValues, optional, readLengths } from './option-spec.ts';

export const BOARD_OPTIONS = optional({
  '--board-width <length>':
    'width of the boards (default: the width under stock in the job, or as wide as the copies need)',
  '--board-length <length>':
    'length of the boards (default: the length under stock in the job, or the length of the blank)',
  '--kerf <length>': 'width of the saw cut between two parts (default: 1/8" or 3 mm)',
  '--between <length>': 'extra space between two parts, in addition to the kerf (default: 0)',
  '--grain <angle>':
    'grain direction on the part, counterclockwise from the reference line. Give degrees, or a slope such as ' +
    '"1 in 12" (default: along the reference line)',
});

export type BoardOptions = OptionValues<typeof BOARD_OPTIONS>;

export function requireNesting({ nesting }: StockPlan, option: string): Nesting {
  if (nesting) return nesting;
  const wording = `a part with one edge cannot be laid out on a board. Add the other edge to the job, or leave out ${option}.`;
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
