import { paramCurve } from './evaluate.ts';
import { fitCubics } from './fit-cubics.ts';
import { elasticaStates } from './pieces/elastica-series.ts';
import type { CubicSegment, ElasticaSegment, Piece, Segment } from './pieces/piece.ts';
import { lerp } from './point.ts';
import { FIT_MM } from './tolerance.ts';

/** How closely a piece without a form for a part of itself is fitted: nothing beside the fit of the path. */
const SUBCURVE_FIT_MM = FIT_MM / 50;

/** The part of a segment from one parameter to another. */
export function subsegment(segment: Segment, from: number, to: number): Segment {
  switch (segment.type) {
    case 'line':
      return {
        type: 'line',
        from: lerp(segment.from, segment.to, from),
        to: lerp(segment.from, segment.to, to),
      };
    case 'arc':
      return { ...segment, start: segment.start + segment.sweep * from, sweep: segment.sweep * (to - from) };
    case 'cubic': {
      const head = splitCubic(segment.controls, to);
      const tail = splitCubic([...head].reverse() as unknown as CubicControls, to === 0 ? 1 : 1 - from / to);
      return { type: 'cubic', controls: [...tail].reverse() as unknown as CubicControls };
    }
  }
}

/** The part of an exact piece: as exact as itself, but for an ellipse or a tapered strip (SUBCURVE_FIT_MM). */
export function subcurve(piece: Piece, from: number, to: number): Piece[] {
  if (from === 0 && to === 1) return [piece];
  switch (piece.type) {
    case 'elastica':
      return [subElastica(piece, from, to)];
    case 'tapered':
    case 'ellipse':
      return fitCubics(paramCurve(piece), from, to, SUBCURVE_FIT_MM);
    default:
      return [subsegment(piece, from, to)];
  }
}

function subElastica(piece: ElasticaSegment, from: number, to: number): ElasticaSegment {
  const { x, y, angle, curvature, rate } = elasticaStates(piece)(from * piece.length);
  const start = { from: { x, y }, angle, curvature, curvatureRate: rate };
  return { ...piece, ...start, length: (to - from) * piece.length };
}

type CubicControls = CubicSegment['controls'];

/** A cubic from its start to a parameter, by de Casteljau. */
function splitCubic([p, q, r, s]: CubicControls, u: number): CubicControls {
  const [pq, qr, rs] = [lerp(p, q, u), lerp(q, r, u), lerp(r, s, u)];
  const [pqr, qrs] = [lerp(pq, qr, u), lerp(qr, rs, u)];
  return [p, pq, pqr, lerp(pqr, qrs, u)];
}
