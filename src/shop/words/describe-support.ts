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

/** Weight, balance, where the board tips off the table, and where to support it. */
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
    return [...balance, `on a table of ${size} it lies in balance from the first of the cut to the last.`];
  return present(
    ...balance,
    `fed left end first over a table of ${size}, the blade in its middle:`,
    ...support.tips.map((tip) => tipWords(tip, words)),
    ...support.stands.map((stand) => standWords(stand, words)),
    support.stands.length > 0 &&
      support.swing > MIN_SWING_MM &&
      `the free end swings ${rounded(support.swing)} sideways as the line turns: a flat top or balls rather than one roller, which would steer it.`,
  );
}

function weightWords(
  { boardMass, partMass, boardBalance, balance }: BoardWeights,
  { rounded, unit }: LengthFormat,
): string[] {
  const board = boardMass === undefined ? 'blank' : `blank: ${showMass(boardMass, unit)}`;
  return present(
    `${board}, in balance at station ${rounded(boardBalance.x)}`,
    partMass !== undefined &&
      `part: ${showMass(partMass, unit)}, in balance at station ${rounded(balance.x)}`,
  );
}

const OVERHANG_WORDS: Readonly<Record<TableEdge, string>> = {
  infeed: 'before the table (infeed)',
  outfeed: 'behind the table (outfeed)',
  left: 'over the left side of the table',
  right: 'over the right side of the table',
};

const tipWords = ({ edge, beyond, from, to, byHand }: TippingStretch, { rounded }: LengthFormat): string =>
  `${edge}: from station ${rounded(from)} to ${rounded(to)} the weight hangs ${OVERHANG_WORDS[beyond]}${byHand ? ': so little that your hand carries it' : ''}`;

function standWords({ where, station, fromBlade, walks }: SupportStand, { rounded }: LengthFormat): string {
  const [when, side] = where === 'infeed' ? ['as the cut begins', 'before'] : ['as it ends', 'behind'];
  const place = `under station ${rounded(station)} ${when}, ${rounded(fromBlade)} ${side} the blade`;
  return walks
    ? `a helper, ${place}, who walks along with it`
    : `a stand or a helper on the ${where} side: ${place}`;
}

/** Any roller keeps a smaller swing: a hand's breadth. */
const MIN_SWING_MM = 50;
