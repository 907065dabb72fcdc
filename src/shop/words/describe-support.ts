import type { LengthFormat } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { showMagnitude } from '../../units/number-format.ts';
import { KG_PER_LB } from '../../units/unit.ts';
import type {
  BoardSupport,
  SawTable,
  SupportStand,
  TableEdge,
  TippingStretch,
} from '../saw/board-support.ts';
import type { BoardWeights } from '../stock/weight.ts';

/** "9.4 lb", "4.3 kg": as many digits as the variation of wood deserves. */
export function showMass(kg: number, unit: LengthFormat['unit']): string {
  const mass = unit === 'in' ? kg / KG_PER_LB : kg;
  return `${showMagnitude(mass, 100)} ${unit === 'in' ? 'lb' : 'kg'}`;
}

/** Weight, balance, where its weight hangs over the table, and where to support it. */
export function describeSupport(
  weights: BoardWeights,
  support: BoardSupport,
  table: SawTable,
  words: LengthFormat,
): string[] {
  const { rounded } = words;
  const size = `${rounded(table.length)} × ${rounded(table.width)}`;
  const balance = weightWords(weights, words);
  if (support.tips.length === 0)
    return [...balance, `On a table of ${size}, the board stays balanced for the whole cut.`];
  return present(
    ...balance,
    `Fed left end first over a table of ${size}, with the blade in the middle:`,
    ...support.tips.map((tip) => tipWords(tip, words)),
    ...support.stands.map((stand) => standWords(stand, words)),
    support.stands.length > 0 &&
      support.swing > MIN_SWING_MM &&
      `The free end swings ${rounded(support.swing)} sideways during the cut. Use a stand with a flat top or ball bearings. A single roller would steer the board.`,
  );
}

function weightWords(
  { boardMass, partMass, boardBalance, balance }: BoardWeights,
  { rounded, unit }: LengthFormat,
): string[] {
  const board = boardMass === undefined ? 'planed blank' : `planed blank: ${showMass(boardMass, unit)}`;
  return present(
    `${board}, balances at station ${rounded(boardBalance.x)}`,
    partMass !== undefined && `part: ${showMass(partMass, unit)}, balances at station ${rounded(balance.x)}`,
  );
}

const SIDE_NAMES: Readonly<Record<TableEdge, string>> = {
  infeed: 'infeed side',
  outfeed: 'outfeed side',
  left: 'left side',
  right: 'right side',
};

const tipWords = ({ edge, beyond, from, to, byHand }: TippingStretch, { rounded }: LengthFormat): string =>
  `${edge}: from station ${rounded(from)} to ${rounded(to)}, the weight hangs over the ${SIDE_NAMES[beyond]} of the table${byHand ? '. Your hand can hold it down' : ''}`;

function standWords({ where, station, fromBlade, walks }: SupportStand, { rounded }: LengthFormat): string {
  const when = where === 'infeed' ? 'starts' : 'ends';
  const place = `on the ${where} side, ${rounded(fromBlade)} from the blade, under station ${rounded(station)} as the cut ${when}`;
  return walks ? `a helper ${place}, who walks with the board` : `a stand or a helper ${place}`;
}

/** Any roller keeps a smaller swing: a hand's breadth. */
const MIN_SWING_MM = 50;
