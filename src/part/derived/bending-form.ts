import { makeCurveFromPath } from '../../curves/curve.ts';
import type { CurvePoint } from '../../curves/geometry/evaluate.ts';
import { pathEnds, pieceEnd, pieceStart, piecesLength } from '../../curves/geometry/evaluate.ts';
import type { Piece, Segment } from '../../curves/geometry/pieces/piece.ts';
import {
  angleDifference,
  angleFrom,
  direction,
  distance,
  type Point,
  point,
  toPoint,
} from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import { apexOf } from '../../curves/measurements.ts';
import { sharpen } from '../../curves/offset/overbend.ts';
import type { Rule } from '../../units/rule.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { edgeEnd, edgeStart, makeEdge } from '../edge.ts';
import { partFromLine } from '../make-part.ts';
import { fromBaseLine } from '../offsets.ts';
import type { Part, PartEdge } from '../part.ts';

/** A form to bend plies over, as a part of its own: its line is the form's face. */
export interface Form {
  /** The form, ready to be laid over sheets: its tails, its face and its stations. */
  readonly part: Part;
  /** The edge as it is asked for, its chord on the reference line, in the middle of the form. */
  readonly asked: readonly Segment[];
  /** Along the curve, the form's tails left out, mm. */
  readonly length: number;
  /** Between the ends of the bent stretch, mm. */
  readonly chord: number;
  /** Of the form over that chord, mm, > 0. */
  readonly rise: number;
  /** What is left of it once the plies have sprung back, over the asked edge’s own chord, mm, > 0. */
  readonly askedRise: number;
  /** Whether the plies lie above the face, the form below. */
  readonly pliesAbove: boolean;
  /** Of the face's direction from its start to its end, counter-clockwise, radians. */
  readonly turn: number;
}

/** Straight, at both ends, mm, round in the maker's unit: a clamp's pad holds the plies there. */
export const tailLength = ({ unit }: Rule): number => (unit === 'in' ? 2 * MM_PER_INCH : 50);

/**
 * Of a ply whose middle lies so far off the face, trimmed square to the face at the far ends of both tails, mm. A
 * parallel at distance d of any curve that turns by θ is longer by dθ (Steiner).
 */
export const plyLength = ({ part, length, turn, pliesAbove }: Form, off: number): number =>
  length + 2 * tailLength(part.rule) + (pliesAbove ? -off : off) * turn;

/**
 * The edge `factor` times as sharp, with straight tails; the plies lie in the wood of the part. A lamination's middle
 * lies T/2 off the edge, where the radius would differ by T/(2n²): less than wood and glue vary by.
 * @throws Fault `sharpen.corner`
 */
export function formOf(part: Part, edge: PartEdge, factor: number, pliesAbove = edge.woodIsAbove): Form {
  const { pieces } = edge;
  const line = levelOnChord(sharpen(pieces, factor).flat());
  const [start, end] = pathEnds(line);
  const chord = distance(start, end);
  const tail = tailLength(part.rule);
  const beyond = (at: CurvePoint, by: number): Point =>
    fromBaseLine({ x: by, y: 0 }, { origin: at, angle: at.angle });
  const before: Segment = { type: 'line', from: beyond(start, -tail), to: toPoint(start) };
  const after: Segment = { type: 'line', from: toPoint(end), to: beyond(end, tail) };
  const runs = [
    makeCurveFromPath('line', [before]),
    makeCurveFromPath('spline', line),
    makeCurveFromPath('line', [after]),
  ];
  const face = makeEdge(edge, runs);
  const askedChord = distance(edgeStart(edge), edgeEnd(edge));
  const { pair: _pair, ...single } = part;
  return {
    part: partFromLine(single, {
      name: `Form for ${edge.name}: ${part.name}`,
      edges: [{ ...face, woodIsAbove: !pliesAbove }],
      shape: { type: 'line', line: face.path, chord: [toPoint(start), toPoint(end)] },
    }),
    asked: levelOnChord(edge.path, (chord - askedChord) / 2),
    length: piecesLength(line),
    chord,
    rise: apexOf(line, start, end)?.rise ?? 0,
    askedRise: apexOf(pieces, edgeStart(edge), edgeEnd(edge))?.rise ?? 0,
    pliesAbove,
    turn: factor * pieces.reduce((sum, piece) => sum + turnOf(piece), 0),
  };
}

const turnOf = (piece: Piece): number =>
  piece.type === 'arc' ? piece.sweep : angleDifference(pieceStart(piece).angle, pieceEnd(piece).angle);

function levelOnChord(path: readonly Segment[], station = 0): Segment[] {
  const [start, end] = pathEnds(path);
  const { x: cos, y: sin } = direction(-angleFrom(start, end));
  const shift = point(station - cos * start.x + sin * start.y, -sin * start.x - cos * start.y);
  return transformPath(path, [cos, sin, -sin, cos, shift.x, shift.y]);
}
