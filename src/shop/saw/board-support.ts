import type { Box } from '../../curves/geometry/bounds.ts';
import { type CurvePoint, paramCurve, pathEnds, samplePiece } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { rootsOn, SAMPLES_PER_PIECE } from '../../curves/numeric/roots-and-minima.ts';
import { toBaseLine } from '../../part/offsets.ts';
import { itemAt, neighbors } from '../../units/checked.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import type { SawnEdge } from './bends-and-corners.ts';

/** Along the feed and across it, mm; the blade is in its middle. */
export interface SawTable {
  readonly length: number;
  readonly width: number;
}

/** Of a common 14 in band saw. Common practice, no published source. */
export const COMMON_TABLE: SawTable = { length: 16 * MM_PER_INCH, width: 16 * MM_PER_INCH };

const TABLE_EDGES = ['infeed', 'outfeed', 'left', 'right'] as const;
export type TableEdge = (typeof TABLE_EDGES)[number];

export interface TippingStretch {
  readonly edge: string;
  readonly beyond: TableEdge;
  readonly from: number;
  readonly to: number;
  /** Of the balance point past the table's edge, at most, mm. */
  readonly overhang: number;
  /** A hand on the board holds the weight: no stand is needed. */
  readonly byHand: boolean;
}

/** What one hand holds while it feeds, kg mm: 5 1/2 lb pressed down 8 in from the edge. Common practice, no published source. */
const HAND_MOMENT = 2.5 * 200;

export interface SupportStand {
  readonly where: 'infeed' | 'outfeed';
  readonly station: number;
  readonly fromBlade: number;
  /** No one place supports the board all the time: a helper walks along with it. */
  readonly walks: boolean;
}

export type BoardSupport = ReturnType<typeof planSupport>;

/**
 * The board is fed from its left end along the line's tangent; it lies on the table while its balance point does. A
 * board of unknown mass (kg) gets its stands.
 */
export function planSupport(
  edges: readonly SawnEdge[],
  board: Box,
  balance: Point,
  table: SawTable,
  mass = Number.POSITIVE_INFINITY,
) {
  const tips = edges
    .flatMap((edge) => tippingStretches(edge, balance, table))
    .map((tip): TippingStretch => ({ ...tip, byHand: mass * tip.overhang <= HAND_MOMENT }));
  const heavy = tips.filter(({ byHand }) => !byHand);
  return { tips, stands: placeStands(edges, heavy, board, balance, table), swing: swingOf(edges, board) };
}

function fromBlade(at: Point, cut: CurvePoint) {
  const { x: ahead, y: left } = toBaseLine(at, { origin: cut, angle: cut.angle });
  return { ahead, left };
}

type Tip = Omit<TippingStretch, 'byHand'>;

function tippingStretches({ name, pieces }: SawnEdge, balance: Point, table: SawTable): Tip[] {
  const tips: Tip[] = [];
  for (const { from, to, cuts } of pieces.flatMap((piece) => balanceStretches(piece, balance, table))) {
    const places = cuts.map((cut) => fromBlade(balance, cut));
    for (const beyond of overhangsAt(itemAt(places, STRETCH_STEPS / 2), table)) {
      const overhang = Math.max(...places.map((place) => overhangOf(place, table)[beyond]));
      const last = tips.findLast((tip) => tip.beyond === beyond);
      if (last && Math.abs(last.to - from) < SAME_MM)
        tips[tips.indexOf(last)] = { ...last, to, overhang: Math.max(last.overhang, overhang) };
      else tips.push({ edge: name, beyond, from, to, overhang });
    }
  }
  return tips;
}

/** Stations nearer than this are one, mm. */
const SAME_MM = 1e-3;

/** Even: the middle is one of them. The overhang changes smoothly, and is most at an end of nearly every stretch. */
const STRETCH_STEPS = 8;

/** The stretches of a piece between which the balance point passes an edge of the table. */
function balanceStretches(piece: Piece, balance: Point, table: SawTable) {
  const at = paramCurve(piece);
  const passes = (['ahead', 'left'] as const).flatMap((side) => {
    const half = (side === 'ahead' ? table.length : table.width) / 2;
    return [half, -half].flatMap((edge) =>
      rootsOn((u) => fromBlade(balance, at(u))[side] - edge, SAMPLES_PER_PIECE),
    );
  });
  return neighbors([0, ...passes.sort((a, b) => a - b), 1]).flatMap(([from, to]) => {
    if (to <= from) return [];
    const cuts = Array.from({ length: STRETCH_STEPS + 1 }, (_, i) =>
      at(from + ((to - from) * i) / STRETCH_STEPS),
    );
    return [{ from: at(from).x, to: at(to).x, cuts }];
  });
}

const overhangOf = (
  { ahead, left }: ReturnType<typeof fromBlade>,
  { length, width }: SawTable,
): Readonly<Record<TableEdge, number>> => ({
  infeed: ahead - length / 2,
  outfeed: -ahead - length / 2,
  left: left - width / 2,
  right: -left - width / 2,
});

function overhangsAt(place: ReturnType<typeof fromBlade>, table: SawTable): TableEdge[] {
  const by = overhangOf(place, table);
  return TABLE_EDGES.filter((edge) => by[edge] > 0);
}

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
