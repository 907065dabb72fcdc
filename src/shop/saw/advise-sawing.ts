import { isShoulder } from '../../curves/geometry/pieces/piece.ts';
import { edgesAsCut } from '../../part/outline/outline.ts';
import type { Part } from '../../part/part.ts';
import { weighPart } from '../stock/weight.ts';
import { isStraight, type SawnEdge } from './bends-and-corners.ts';
import { adviseBlade, type BladeOptions } from './blade-advice.ts';
import { COMMON_TABLE, planSupport, type SawTable } from './board-support.ts';
import { COMMON_HEIGHT_MM, COMMON_SAWS, planEndCut, type TableSaw } from './saw-depth.ts';

export interface SawingOptions extends BladeOptions {
  readonly tableSaw?: TableSaw;
  readonly table?: SawTable;
  readonly height?: number;
}

export type Sawing = ReturnType<typeof adviseSawing>;

/** Advises on blade, depth of cut and support of the board; in mm and kg. @throws Fault `saw.blade-width` */
export function adviseSawing(part: Part, ask: SawingOptions = {}) {
  const { tableSaw = COMMON_SAWS[0], table = COMMON_TABLE, height = COMMON_HEIGHT_MM } = ask;
  const edges: readonly SawnEdge[] = edgesAsCut(part);
  const weights = weighPart(part);
  const { board, boardBalance, boardMass } = weights;
  return {
    edges,
    blade: adviseBlade(part, edges, ask),
    ends: (part.ends ?? []).map((end) => planEndCut(end, part.stock?.thickness, tableSaw)),
    tableSaw,
    height,
    weights,
    table,
    support: planSupport(bandSawnEdges(edges), board, boardBalance, table, boardMass),
  };
}

/** Without straight edges where some are curved: those are planed. Without shoulders: for crosscuts nothing is fed. */
function bandSawnEdges(edges: readonly SawnEdge[]): readonly SawnEdge[] {
  const curved = edges.filter((edge) => !isStraight(edge));
  const fed = curved.length > 0 ? curved : edges;
  return fed.map((edge) => ({ ...edge, pieces: edge.pieces.filter((piece) => !isShoulder(piece)) }));
}
