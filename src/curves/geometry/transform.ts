import { itemAt } from '../../units/checked.ts';
import { type Affine, isReflection, transformPoint } from './affine.ts';
import { pieceStart } from './evaluate.ts';
import { elasticaStates } from './pieces/elastica-series.ts';
import type { ArcSegment, CubicSegment, LineSegment, Piece, Segment } from './pieces/piece.ts';
import { reverseTapered } from './pieces/tapered-series.ts';
import { add, angleFrom, direction, distance, leftNormal, type Point, scale } from './point.ts';

export const polygon = (corners: readonly Point[]): LineSegment[] =>
  corners.map((from, i) => ({ type: 'line', from, to: itemAt(corners, (i + 1) % corners.length) }));

function reverseSegment(segment: Segment): Segment {
  switch (segment.type) {
    case 'line':
      return { type: 'line', from: segment.to, to: segment.from };
    case 'arc':
      return { ...segment, start: segment.start + segment.sweep, sweep: -segment.sweep };
    case 'cubic': {
      const [a, b, c, d] = segment.controls;
      return { type: 'cubic', controls: [d, c, b, a] };
    }
  }
}

/** The same piece run from its end to its start. */
export function reversePiece(piece: Piece): Piece {
  switch (piece.type) {
    case 'elastica': {
      const { x, y, angle, curvature, rate } = elasticaStates(piece)(piece.length);
      const from = { x, y };
      return { ...piece, from, angle: angle + Math.PI, curvature: 0 - curvature, curvatureRate: rate };
    }
    case 'tapered':
      return reverseTapered(piece);
    case 'ellipse':
      return { ...piece, from: piece.to, to: piece.from, rise: -piece.rise };
    default:
      return reverseSegment(piece);
  }
}

export const reversePath = (path: readonly Segment[]): Segment[] => path.map(reverseSegment).reverse();

/** @param matrix one that keeps shapes: a turn, a shift, a mirror, an even scale */
export function transformSegment(segment: Segment, matrix: Affine): Segment {
  const map = (at: Point): Point => transformPoint(matrix, at);
  switch (segment.type) {
    case 'line':
      return { type: 'line', from: map(segment.from), to: map(segment.to) };
    case 'cubic': {
      const [p, q, r, s] = segment.controls;
      return { type: 'cubic', controls: [map(p), map(q), map(r), map(s)] };
    }
    case 'arc': {
      const centre = map(segment.centre);
      const from = map(pieceStart(segment));
      const [radius, start] = [distance(centre, from), angleFrom(centre, from)];
      return {
        ...segment,
        centre,
        radius,
        start,
        sweep: isReflection(matrix) ? -segment.sweep : segment.sweep,
      };
    }
  }
}

export const transformPath = (path: readonly Segment[], matrix: Affine): Segment[] =>
  path.map((segment) => transformSegment(segment, matrix));

/** The arc of radius r and sweep φ lies within r·φ⁶·ARC_ERROR of its cubic (measured, see the test). */
const ARC_ERROR = 2.2e-5;

/** Cubics within `tolerance` of an arc: equal parts with the handles of a circle, 4⁄3·tan(φ/4)·r. */
export function arcToCubics(arc: ArcSegment, tolerance: number): CubicSegment[] {
  const most = Math.min(Math.PI / 2, (tolerance / (arc.radius * ARC_ERROR)) ** (1 / 6));
  const count = Math.max(1, Math.ceil(Math.abs(arc.sweep) / most));
  const sweep = arc.sweep / count;
  const handle = (4 / 3) * Math.tan(sweep / 4) * arc.radius;
  return Array.from({ length: count }, (_, i) => {
    const out0 = direction(arc.start + sweep * i);
    const out1 = direction(i === count - 1 ? arc.start + arc.sweep : arc.start + sweep * (i + 1));
    const p0 = add(arc.centre, scale(out0, arc.radius));
    const p3 = add(arc.centre, scale(out1, arc.radius));
    const p1 = add(p0, scale(leftNormal(out0), handle));
    const p2 = add(p3, scale(leftNormal(out1), -handle));
    return { type: 'cubic', controls: [p0, p1, p2, p3] };
  });
}
