import type { Box } from '../../curves/geometry/bounds.ts';
import { type CurvePoint, paramCurve, pathEnds, samplePiece } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { rootsOn, SAMPLES_PER_PIECE } from '../../curves/numeric/roots-and-minima.ts';
import { toBaseLine } from '../../part/offsets.ts';
import { neighbors } from '../../units/checked.ts';
import { present } from '../../units/lists.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import type { SawnEdge } from './bends-and-corners.ts';

/** Along the feed and across it, mm; the blade is in its middle. */
export interface SawTable {
  readonly length: number;
  readonly width: number;
}

/** Of a common 14 in band saw. Common practice, no published source. */
export const COMMON_TABLE: SawTable = { length: 16 * MM_PER_INCH, width: 16 * MM_PER_INCH };

export type TableEdge = 'infeed' | 'outfeed' | 'left' | 'right';

export interface TippingStretch {
  readonly edge: string;
  readonly beyond: TableEdge;
  readonly from: number;
  readonly to: number;
}

export interface SupportStand {
  readonly where: 'infeed' | 'outfeed';
  readonly station: number;
  readonly fromBlade: number;
  /** No one place supports the board all the time: a helper walks along with it. */
  readonly walks: boolean;
}

export type BoardSupport = ReturnType<typeof planSupport>;

/** The board is fed from its left end along the line's tangent; it lies on the table while its balance point does. */
export function planSupport(edges: readonly SawnEdge[], board: Box, balance: Point, table: SawTable) {
  const tips = edges.flatMap((edge) => tippingStretches(edge, balance, table));
  return { tips, stands: placeStands(edges, tips, board, balance, table), swing: swingOf(edges, board) };
}

function fromBlade(at: Point, cut: CurvePoint) {
  const { x: ahead, y: left } = toBaseLine(at, { origin: cut, angle: cut.angle });
  return { ahead, left };
}

function tippingStretches({ name, pieces }: SawnEdge, balance: Point, table: SawTable): TippingStretch[] {
  const tips: TippingStretch[] = [];
  for (const { from, to, middle } of pieces.flatMap((piece) => balanceStretches(piece, balance, table))) {
    for (const beyond of overhangsAt(fromBlade(balance, middle), table)) {
      const last = tips.findLast((tip) => tip.beyond === beyond);
      if (last && Math.abs(last.to - from) < SAME_MM) tips[tips.indexOf(last)] = { ...last, to };
      else tips.push({ edge: name, beyond, from, to });
    }
  }
  return tips;
}

/** Stations nearer than this are one, mm. */
const SAME_MM = 1e-3;

/** The stretches of a piece between which the balance point passes an edge of the table. */
function balanceStretches(piece: Piece, balance: Point, table: SawTable) {
  const at = paramCurve(piece);
  const passes = (['ahead', 'left'] as const).flatMap((side) => {
    const half = (side === 'ahead' ? table.length : table.width) / 2;
    return [half, -half].flatMap((edge) =>
      rootsOn((u) => fromBlade(balance, at(u))[side] - edge, SAMPLES_PER_PIECE),
    );
  });
  return neighbors([0, ...passes.sort((a, b) => a - b), 1]).flatMap(([from, to]) =>
    to > from ? [{ from: at(from).x, to: at(to).x, middle: at((from + to) / 2) }] : [],
  );
}

const overhangsAt = ({ ahead, left }: ReturnType<typeof fromBlade>, table: SawTable): TableEdge[] =>
  present<TableEdge>(
    ahead > table.length / 2 && 'infeed',
    -ahead > table.length / 2 && 'outfeed',
    left > table.width / 2 && 'left',
    -left > table.width / 2 && 'right',
  );

/**
 * In the middle of their range: the infeed stand beyond the balance point as the cut begins, and under the board until
 * that point is over the table. The outfeed stand is the same, run backward.
 */
function placeStands(
  edges: readonly SawnEdge[],
  tips: readonly TippingStretch[],
  board: Box,
  balance: Point,
  table: SawTable,
): SupportStand[] {
  const ends = edges.map(({ pieces }) => pathEnds(pieces));
  const start = Math.min(...ends.map(([{ x }]) => x));
  const end = Math.max(...ends.map(([, { x }]) => x));
  const half = table.length / 2;
  const stand = (where: SupportStand['where'], least: number, most: number): SupportStand[] => {
    if (!tips.some(({ beyond }) => beyond === where)) return [];
    const walks = least > most;
    const fromBlade = walks ? least : (least + most) / 2;
    return [{ where, station: where === 'infeed' ? start + fromBlade : end - fromBlade, fromBlade, walks }];
  };
  return [
    ...stand('infeed', balance.x - start, board.right - balance.x + half),
    ...stand('outfeed', end - balance.x, balance.x - board.left + half),
  ];
}

const FEED_STEPS = 16;

function swingOf(edges: readonly SawnEdge[], board: Box): number {
  const y = (board.bottom + board.top) / 2;
  const swings = edges.flatMap(({ pieces }) => {
    const places = pieces.flatMap((piece) => samplePiece(piece, FEED_STEPS));
    return [board.left, board.right].map((x) => {
      const lefts = places.map((place) => fromBlade({ x, y }, place).left);
      return Math.max(...lefts) - Math.min(...lefts);
    });
  });
  return Math.max(...swings);
}
