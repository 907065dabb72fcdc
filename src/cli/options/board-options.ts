import type { Command } from 'commander';
import type { Part } from '../../part/part.ts';
import type { Nesting } from '../../shop/nesting/nest-copies.ts';
import type { StockPlan, StockPlanOptions } from '../../shop/stock/stock-plan.ts';
import { Fault } from '../../units/fault.ts';
import { parseAngle } from '../../units/parse-angle.ts';
import { atOption, parseLengthOption } from './option-values.ts';

/** The boards to cut from, as typed. */
export interface BoardOptions {
  readonly boardLength?: string;
  readonly boardWidth?: string;
  readonly kerf?: string;
  readonly between?: string;
  readonly grain?: string;
}

/** Adds the boards to cut from to a command. */
export const addBoardOptions = (command: Command): Command =>
  command
    .option(
      '--board-width <length>',
      'of the boards to cut from (default: that of the job’s stock, else what the copies need)',
    )
    .option(
      '--board-length <length>',
      'of the boards to cut from (default: that of the job’s stock, else that of the blank)',
    )
    .option('--kerf <length>', 'what the saw takes between two parts (default: 1/8 in or 3 mm)')
    .option('--between <length>', 'left between two parts besides the kerf (default: nothing)')
    .option(
      '--grain <angle>',
      'which way the grain runs on the part, counter-clockwise from the reference line: degrees, or a slope such ' +
        'as "1 in 12" (default: along the reference line)',
    );

/** @throws Fault `nesting.one-edge` at the option that asks for the copies on a board */
export function requireNesting({ nesting }: StockPlan, option: string): Nesting {
  if (nesting) return nesting;
  throw new Fault(
    'nesting.one-edge',
    'one edge is a line on a board, and there is no part to lay out. Set out the other edge too, or leave this out.',
    option,
  );
}

/** What a maker asks of the wood. */
export function readStockOptions({ rule }: Part, options: BoardOptions): StockPlanOptions {
  const length = (
    name: 'boardLength' | 'boardWidth' | 'kerf' | 'between',
    option: string,
    sign: 'positive' | 'not-negative',
  ): StockPlanOptions => {
    const typed = options[name];
    return typed === undefined ? {} : { [name]: parseLengthOption(option, typed, rule.unit, sign) };
  };
  const { grain } = options;
  return {
    ...length('boardLength', '--board-length', 'positive'),
    ...length('boardWidth', '--board-width', 'positive'),
    ...length('kerf', '--kerf', 'not-negative'),
    ...length('between', '--between', 'not-negative'),
    ...(grain !== undefined && { grain: atOption('--grain', () => parseAngle(grain)) }),
  };
}
