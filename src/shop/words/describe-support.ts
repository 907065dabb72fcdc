import type { Beyond, SawTable, Stand, Support, Tip } from '../saw/board-support.ts';
import type { Weights } from '../stock/weight.ts';
import type { LengthWords } from './length-format.ts';

/** Kilograms in a pound: exact by definition. */
const KG_PER_LB = 0.45359237;

/** "9.4 lb", "4.3 kg": as much as wood's spread of weight deserves. */
export function massWords(kg: number, unit: LengthWords['unit']): string {
  const mass = unit === 'in' ? kg / KG_PER_LB : kg;
  return `${mass >= 100 ? mass.toFixed(0) : mass >= 1 ? mass.toFixed(1) : mass.toFixed(2)} ${unit === 'in' ? 'lb' : 'kg'}`;
}

/** Weight, balance, where the board tips off the table, and where to bear it. */
export function saySupport(
  weights: Weights,
  support: Support,
  table: SawTable,
  words: LengthWords,
): string[] {
  const { about } = words;
  const size = `${about(table.length)} × ${about(table.width)}`;
  return [
    ...weightWords(weights, words),
    ...(support.tips.length === 0
      ? [`on a table of ${size} it lies in balance from the first of the cut to the last.`]
      : [
          `fed left end first over a table of ${size}, the blade in its middle:`,
          ...support.tips.map((tip) => tipWords(tip, words)),
          ...support.stands.map((stand) => standWords(stand, words)),
          ...swingWords(support, words),
        ]),
  ];
}

function weightWords(
  { boardMass, partMass, boardBalance, balance }: Weights,
  { about, unit }: LengthWords,
): string[] {
  const board = boardMass === undefined ? 'board' : `board: ${massWords(boardMass, unit)}`;
  const lines = [`${board}, in balance at station ${about(boardBalance.x)}`];
  if (partMass !== undefined)
    lines.push(`part: ${massWords(partMass, unit)}, in balance at station ${about(balance.x)}`);
  return lines;
}

const HANGS: Readonly<Record<Beyond, string>> = {
  infeed: 'before the table (infeed)',
  outfeed: 'behind the table (outfeed)',
  left: 'over the left side of the table',
  right: 'over the right side of the table',
};

const tipWords = ({ edge, beyond, from, to }: Tip, { about }: LengthWords): string =>
  `${edge}: from station ${about(from)} to ${about(to)} the weight hangs ${HANGS[beyond]}`;

function standWords({ where, station, fromBlade, walks }: Stand, { about }: LengthWords): string {
  const when = where === 'infeed' ? 'as the cut begins' : 'as it ends';
  const place = `under station ${about(station)} ${when}, ${about(fromBlade)} ${where === 'infeed' ? 'before' : 'behind'} the blade`;
  return walks
    ? `a helper, ${place}, who walks along with it`
    : `a stand or a helper on the ${where} side: ${place}`;
}

/** A swing less than this is kept by any roller, mm: a hand's breadth. */
const SWINGS_MM = 50;

const swingWords = ({ swing }: Support, { about }: LengthWords): string[] =>
  swing > SWINGS_MM
    ? [
        `the free end swings ${about(swing)} sideways as the line turns: a flat top or balls rather than one roller, which would steer it.`,
      ]
    : [];
