import { type Curve, makeCurveFromPath } from '../../curves/curve.ts';
import type { CurvePoint } from '../../curves/geometry/evaluate.ts';
import { pathEnds, pieceEnd, pieceStart, piecesLength } from '../../curves/geometry/evaluate.ts';
import type { ArcSegment, Piece, Segment } from '../../curves/geometry/pieces/piece.ts';
import {
  angleDifference,
  angleFrom,
  direction,
  distance,
  point,
  toPoint,
} from '../../curves/geometry/point.ts';
import { reversePath, transformPath } from '../../curves/geometry/transform.ts';
import { apexOf } from '../../curves/measurements.ts';
import { sharpen } from '../../curves/offset/overbend.ts';
import { lastOf } from '../../units/checked.ts';
import type { Rule } from '../../units/rule.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { edgeEnd, edgeStart, makeEdge } from '../edge.ts';
import { partFromLine } from '../make-part.ts';
import { fromBaseLine } from '../offsets.ts';
import type { Part, PartEdge } from '../part.ts';
import type { Reach } from './ply-stack.ts';

/** A form to bend plies over, as a part of its own: its line is the form's face. */
export interface Form {
  /** The form, ready to be laid over sheets: its tails, its face and its stations. */
  readonly part: Part;
  /** The edge as it is asked for, its chord on the reference line, in the middle of the form. */
  readonly asked: readonly Segment[];
  /** Along the curve, the form's tails left out, mm. */
  readonly length: number;
  /** Of the tails, along the face, mm. */
  readonly tails: readonly [left: number, right: number];
  /** Between the ends of the bent stretch, mm. */
  readonly chord: number;
  /** Of the form over that chord, mm, > 0. */
  readonly rise: number;
  /** What is left of it once the plies have sprung back, over the asked edge’s own chord, mm, > 0. */
  readonly askedRise: number;
  /** Whether the plies lie above the face, the form below. */
  readonly pliesAbove: boolean;
  /** Of the face's direction from its start to its end, tails and all, counter-clockwise, radians. */
  readonly turn: number;
}

/** Straight, at both ends, mm, round in the maker's unit: a clamp's pad holds the plies there. */
export const tailLength = ({ unit }: Rule): number => (unit === 'in' ? 2 * MM_PER_INCH : 50);

/**
 * Of a ply whose middle lies so far off the face, trimmed square to the face at the far ends of both tails, mm. A
 * parallel at distance d of any curve that turns by θ is longer by dθ (Steiner).
 */
export const plyLength = ({ length, tails, turn, pliesAbove }: Form, off: number): number =>
  length + tails[0] + tails[1] + (pliesAbove ? -off : off) * turn;

const NO_REACH: Reach = [0, 0];

/**
 * The edge `factor` times as sharp, with straight tails; the plies lie in the wood of the part. A lamination's middle
 * lies T/2 off the edge, where the radius would differ by T/(2n²): less than wood and glue vary by. Past its ends an
 * arc goes on as far as the cuts of the part reach, any other curve straight, as a parallel edge does.
 * @throws Fault `sharpen.corner`
 */
export function formOf(
  part: Part,
  edge: PartEdge,
  factor: number,
  pliesAbove = edge.woodIsAbove,
  reach = NO_REACH,
): Form {
  const { pieces } = edge;
  const line = levelOnChord(sharpen(pieces, factor).flat());
  const [start, end] = pathEnds(line);
  const chord = distance(start, end);
  const tails = [tailBefore(line, reach[0], part.rule), tailAfter(line, reach[1], part.rule)] as const;
  const runs = [...tails[0].runs, makeCurveFromPath('spline', line), ...tails[1].runs];
  const face = makeEdge(edge, runs);
  const askedChord = distance(edgeStart(edge), edgeEnd(edge));
  const { pair: _pair, ...single } = part;
  const ofEdge = factor * pieces.reduce((sum, piece) => sum + turnOf(piece), 0);
  return {
    part: partFromLine(single, {
      name: `Form for ${edge.name}: ${part.name}`,
      edges: [{ ...face, woodIsAbove: !pliesAbove }],
      shape: { type: 'line', line: face.path, chord: [toPoint(start), toPoint(end)] },
    }),
    asked: levelOnChord(edge.path, (chord - askedChord) / 2),
    length: piecesLength(line),
    tails: [tails[0].length, tails[1].length],
    chord,
    rise: apexOf(line, start, end)?.rise ?? 0,
    askedRise: apexOf(pieces, edgeStart(edge), edgeEnd(edge))?.rise ?? 0,
    pliesAbove,
    turn: ofEdge + tails[0].turn + tails[1].turn,
  };
}

interface Tail {
  readonly runs: readonly Curve[];
  readonly length: number;
  readonly turn: number;
}

function tailAfter(line: readonly Segment[], reach: number, rule: Rule): Tail {
  const last = lastOf(line);
  const straight = tailLength(rule);
  if (reach === 0 || last.type !== 'arc') return straightTail(pathEnds(line)[1], reach + straight);
  const sweep = (Math.sign(last.sweep) * reach) / last.radius;
  const arc: ArcSegment = { ...last, start: last.start + last.sweep, sweep };
  const tail = straightTail(pieceEnd(arc), straight);
  return {
    runs: [makeCurveFromPath('arc', [arc]), ...tail.runs],
    length: reach + straight,
    turn: sweep,
  };
}

const straightTail = (from: CurvePoint, length: number): Tail => ({
  runs: [
    makeCurveFromPath('line', [
      {
        type: 'line',
        from: toPoint(from),
        to: fromBaseLine({ x: length, y: 0 }, { origin: from, angle: from.angle }),
      },
    ]),
  ],
  length,
  turn: 0,
});

/** The tail after the line from its end to its start, turned round. */
function tailBefore(line: readonly Segment[], reach: number, rule: Rule): Tail {
  const { runs, length, turn } = tailAfter(reversePath(line), reach, rule);
  const forward = runs.map(({ kind, path }) => makeCurveFromPath(kind, reversePath(path))).reverse();
  return { runs: forward, length, turn: -turn };
}

const turnOf = (piece: Piece): number =>
  piece.type === 'arc' ? piece.sweep : angleDifference(pieceStart(piece).angle, pieceEnd(piece).angle);

function levelOnChord(path: readonly Segment[], station = 0): Segment[] {
  const [start, end] = pathEnds(path);
  const { x: cos, y: sin } = direction(-angleFrom(start, end));
  const shift = point(station - cos * start.x + sin * start.y, -sin * start.x - cos * start.y);
  return transformPath(path, [cos, sin, -sin, cos, shift.x, shift.y]);
}
