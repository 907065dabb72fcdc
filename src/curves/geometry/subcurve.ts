import { along } from './evaluate.ts';
import { fitCubics } from './fit-cubics.ts';
import { elasticaStates } from './pieces/elastica-series.ts';
import type { CubicSegment, ElasticaSegment, Piece, Segment } from './pieces/piece.ts';
import { between } from './point.ts';
import { FIT_MM } from './tolerance.ts';

/** A piece without a form for a part of itself is fitted this closely: nothing beside the fit of the path. */
const STRETCH_MM = FIT_MM / 50;

/** The part of a segment from one parameter to another. */
export function stretchOf(segment: Segment, from: number, to: number): Segment {
  switch (segment.type) {
    case 'line':
      return {
        type: 'line',
        from: between(segment.from, segment.to, from),
        to: between(segment.from, segment.to, to),
      };
    case 'arc':
      return { ...segment, start: segment.start + segment.sweep * from, sweep: segment.sweep * (to - from) };
    case 'cubic': {
      const head = headOf(segment.controls, to);
      const tail = headOf([...head].reverse() as unknown as Controls, to === 0 ? 1 : 1 - from / to);
      return { type: 'cubic', controls: [...tail].reverse() as unknown as Controls };
    }
  }
}

/** The part of an exact piece: as exact as itself, but for an ellipse or a tapered strip (STRETCH_MM). */
export function pieceStretch(piece: Piece, from: number, to: number): Piece[] {
  if (from === 0 && to === 1) return [piece];
  switch (piece.type) {
    case 'elastica':
      return [elasticaStretch(piece, from, to)];
    case 'tapered':
    case 'ellipse':
      return fitCubics(along(piece), from, to, STRETCH_MM);
    default:
      return [stretchOf(piece, from, to)];
  }
}

function elasticaStretch(piece: ElasticaSegment, from: number, to: number): ElasticaSegment {
  const { x, y, angle, curvature, rate } = elasticaStates(piece)(from * piece.length);
  const start = { from: { x, y }, angle, curvature, curvatureRate: rate };
  return { ...piece, ...start, length: (to - from) * piece.length };
}

type Controls = CubicSegment['controls'];

/** A cubic from its start to a parameter, by de Casteljau. */
function headOf([p, q, r, s]: Controls, u: number): Controls {
  const [pq, qr, rs] = [between(p, q, u), between(q, r, u), between(r, s, u)];
  const [pqr, qrs] = [between(pq, qr, u), between(qr, rs, u)];
  return [p, pq, pqr, between(pqr, qrs, u)];
}
