import { pathEnds } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { angleDifference, direction, dot, type Point, subtract } from '../../curves/geometry/point.ts';
import { apexOf, sharpestBend } from '../../curves/measurements.ts';
import { rootBetween } from '../../curves/numeric/roots-and-minima.ts';
import { assertSmooth, sharpen } from '../../curves/offset/overbend.ts';
import type { FormSide, Job } from '../../job/job.ts';
import { firstOf, lastOf } from '../../units/checked.ts';
import { catchFault, collectFaults, Fault } from '../../units/fault.ts';
import { edgeEnd, edgeStart, lowerEdge, upperEdge } from '../edge.ts';
import type { Part, PartEdge } from '../part.ts';

/** How far the wood goes on past each end of the edge, along the edge's own curve, mm. */
export type Reach = readonly [left: number, right: number];

/** What there is to know of the plies of a laminated part before its wood is known. */
export interface PlyStack {
  /** The edge that the form touches. */
  readonly edge: PartEdge;
  readonly form: FormSide;
  /** Of all plies together, mm; absent where the wood decides how thick a ply can be. */
  readonly thickness?: number;
  /** Absent where the wood decides. */
  readonly plies?: number;
  /** Past both ends of the edge, up to the cuts of the part. */
  readonly reach: Reach;
  /** How much sharper the form is, by a trial piece; absent where it is computed. */
  readonly factor?: number;
}

type Shaped = Pick<Part, 'edges' | 'ends' | 'laminate' | 'stock' | 'sawAllowance'>;

/** The mistake of a job that is to be laminated and cannot be, if there is one. */
export function stackFaults(
  { laminate, stock, sawAllowance }: Pick<Job, 'laminate' | 'stock' | 'sawAllowance'>,
  edges: Part['edges'],
  ends: Part['ends'],
): readonly Fault[] {
  return collectFaults(() => {
    plyStackOf({
      edges,
      sawAllowance,
      ...(ends && { ends }),
      ...(stock && { stock }),
      ...(laminate && { laminate }),
    });
  });
}

/** Of a part that is laminated. @throws Fault `laminate.…`, `lamination.…`, `sharpen.corner` */
export function plyStackOf(part: Shaped): PlyStack {
  const { laminate } = part;
  if (!laminate) throw new Error('the part is not laminated');
  rejectSawing(part);
  const form = laminate.form ?? insideOfBend(lowerEdge(part));
  const edge = form === 'below' ? lowerEdge(part) : upperEdge(part.edges);
  assertCurved(edge);
  return {
    edge,
    form,
    ...plyCounts(part),
    reach: reachOf(part, edge),
    ...(laminate.springback !== undefined && { factor: factorForRise(edge, laminate.springback) }),
  };
}

/** Where the plies go around the form, and the tightest of them is the one on it. */
const insideOfBend = ({ pieces }: PartEdge): FormSide =>
  sharpestBend(pieces, -1) >= sharpestBend(pieces, 1) ? 'below' : 'above';

function rejectSawing({ edges: [edge, other], stock, sawAllowance }: Shaped): void {
  if ((stock?.layers ?? 1) > 1)
    throw new Fault('laminate.layers', 'the plies already make the part. Leave out layers.', 'stock.layers');
  if (sawAllowance !== 0) {
    const wording = 'a laminated part is not sawn along its edges. Leave out saw.';
    throw new Fault('laminate.saw', wording, 'allowance.saw');
  }
  if (!other || edge.parallel || other.parallel) return;
  const wording =
    'plies have the same thickness everywhere, but the two edges are not parallel. ' +
    `Make one a parallel of the other, such as "parallel: ${edge.name}" and "by: 1 3/4". Or saw the part.`;
  throw new Fault('laminate.not-parallel', wording, 'laminate');
}

function assertCurved({ name, key, pieces }: PartEdge): void {
  if (sharpestBend(pieces, 1) === 0 && sharpestBend(pieces, -1) === 0) {
    const wording = `"${name}" has no curve, so its plies need no form. Leave out laminate.`;
    throw new Fault('laminate.straight', wording, 'laminate');
  }
  catchFault(
    () => assertSmooth(pieces),
    (fault) => {
      throw fault.at(key);
    },
  );
}

/** A stack that is off a whole number of plies by a share less than this is rounded: 1 3/4" in 14 of 3.2 mm. */
const WHOLE_SHARE = 0.02;

function plyCounts({ edges, laminate: { plies, ply } = {} }: Shaped): Pick<PlyStack, 'plies' | 'thickness'> {
  const pair = edges.find(({ parallel }) => parallel)?.parallel;
  if (!pair) return ofSingleEdge(plies, ply);
  const thickness = Math.abs(pair.by);
  if (plies !== undefined && ply !== undefined) {
    const wording = 'the two edges already say how thick the plies are together. Use plies or ply, not both.';
    throw new Fault('job.one-of', wording, 'laminate.ply');
  }
  if (ply === undefined) return { thickness, ...(plies !== undefined && { plies }) };
  const count = Math.round(thickness / ply);
  if (count < 2)
    throw new Fault(
      'lamination.plies',
      (mm) =>
        `a ply of ${mm(ply)} is too thick for a part ${mm(thickness)} thick. ` +
        `Use two plies or more, of ${mm(thickness / 2)} or less.`,
      'laminate.ply',
    );
  if (Math.abs(thickness / ply - count) <= WHOLE_SHARE * count) return { thickness, plies: count };
  throw new Fault(
    'laminate.ply',
    (mm) =>
      `plies of ${mm(ply)} do not add up to ${mm(thickness)}. ` +
      `Use "plies: ${count}", or change "by" to ${mm(count * ply)}.`,
    'laminate.ply',
  );
}

function ofSingleEdge(plies: number | undefined, ply: number | undefined) {
  if (plies === undefined)
    throw new Fault(
      'lamination.size',
      'a single edge does not say how thick the part is. Add the number of plies, such as "plies: 7".',
      'laminate',
    );
  return { plies, ...(ply !== undefined && { thickness: plies * ply }) };
}

/** The cuts of the ends may lie past the ends of the edge, on the other edge or on the other face. */
function reachOf({ ends }: Shaped, edge: PartEdge): Reach {
  if (!ends) return [0, 0];
  const { pieces } = edge;
  const [start, end] = pathEnds(pieces);
  const corners = ends.map(({ face, back }) => [...face, ...back]);
  const most = (side: 0 | 1, past: (corner: Point) => number): number =>
    Math.max(0, ...(corners[side] ?? []).map(past));
  return [
    most(0, (at) => distancePast(firstOf(pieces), edgeStart(edge), start.angle + Math.PI, at)),
    most(1, (at) => distancePast(lastOf(pieces), edgeEnd(edge), end.angle, at)),
  ];
}

/** Along an arc by the angle about its center, else along the tangent. */
function distancePast(piece: Piece, tip: Point, outward: number, at: Point): number {
  if (piece.type !== 'arc') return dot(subtract(at, tip), direction(outward));
  const angleTo = ({ x, y }: Point): number => Math.atan2(y - piece.centre.y, x - piece.centre.x);
  const turn = angleDifference(angleTo(tip), angleTo(at));
  const isCounterclockwise = Math.cos(outward - angleTo(tip) - Math.PI / 2) > 0;
  return (isCounterclockwise ? turn : -turn) * piece.radius;
}

/** A form that is much sharper than the part is a mistake in the reading of the trial piece. */
const MAX_FACTOR = 4;
/** The rise grows with the factor up to about a half circle: steps that do not pass over it. */
const FACTOR_STEP = 1.02;

/**
 * How much sharper a form is that rises by so much more than the part, mm, each over its own chord.
 * @throws Fault `laminate.springback`
 */
function factorForRise({ pieces }: Pick<PartEdge, 'pieces'>, springback: number): number {
  const over = (factor: number): number => riseAt(pieces, factor) - asked - springback;
  const asked = riseAt(pieces, 1);
  if (springback === 0) return 1;
  const key = 'laminate.springback';
  if (springback >= asked)
    throw new Fault(
      'laminate.springback',
      (mm) =>
        `the springback of ${mm(springback)} is not less than the rise of the part, ${mm(asked)}. ` +
        'Write only the rise that the trial piece lost.',
      key,
    );
  for (let factor = 1; factor < MAX_FACTOR; factor *= FACTOR_STEP) {
    const found = rootBetween(over, factor, factor * FACTOR_STEP);
    if (found !== undefined) return found;
  }
  throw new Fault(
    'laminate.springback',
    (mm) =>
      `no form for this curve rises ${mm(springback)} more than the part. Use more plies, and measure a new trial piece.`,
    key,
  );
}

/** The most rise over its own chord of pieces with so many times their curvature, mm. */
export function riseAt(pieces: readonly Piece[], factor: number): number {
  const line = sharpen(pieces, factor).flat();
  const [start, end] = pathEnds(line);
  return apexOf(line, start, end)?.rise ?? 0;
}
