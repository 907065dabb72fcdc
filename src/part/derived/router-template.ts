import { type Curve, makeCurveFromPath } from '../../curves/curve.ts';
import { pieceEnd, pieceStart } from '../../curves/geometry/evaluate.ts';
import { positivePeaks } from '../../curves/geometry/extrema.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { angleFrom, cross, direction, distance, type Point, subtract } from '../../curves/geometry/point.ts';
import { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { reversePath } from '../../curves/geometry/transform.ts';
import { offsetPieces } from '../../curves/offset/offset-curve.ts';
import { itemAt, lastOf, neighbors } from '../../units/checked.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { type Rule, showLength, showSize } from '../../units/rule.ts';
import { edgeEnd, makeEdge } from '../edge.ts';
import { partFromLine } from '../make-part.ts';
import { findLeastWidth } from '../outline/least-width.ts';
import { edgesAsCut, makeLineShape } from '../outline/outline.ts';
import { assertParallelFits } from '../outline/saw-line.ts';
import type { Part, PartEdge } from '../part.ts';
import { finishedLine } from '../part-lines.ts';

/** What follows the template and what cuts, diameters mm, > 0. */
export interface Cutter {
  /** A bush in the router's base, round the bit, or a bearing on the bit itself. */
  readonly guide: 'bush' | 'bearing';
  /** Outside, mm, > 0. */
  readonly guideDiameter: number;
  /** Of what it cuts, mm, > 0. */
  readonly bitDiameter: number;
  /** The guide runs inside an opening of the part's shape and not round the part. */
  readonly opening: boolean;
}

/** A template as a part of its own: the line to cut is the template's edge. */
export interface Template {
  /** The template, ready to be laid over sheets. */
  readonly part: Part;
  /** How far the template's edge lies inside the part's line, mm; outside where it is negative. */
  readonly inside: number;
  /** Where the bit does not reach in, or the guide does not follow. */
  readonly warnings: readonly Warning[];
}

/**
 * The edge is a parallel at half of what the guide's diameter exceeds the bit's (magazine figure by way of a
 * question-and-answer page on woodworking: a 3/4 in guide and a 1/2 in bit give 1/8 in).
 * @throws Fault `template.bush`, `parallel.folds`, `parallel.no-room`
 */
export function templateOf(part: Part, cutter: Cutter): Template {
  const { guide, guideDiameter, bitDiameter, opening } = cutter;
  if (guide === 'bush' && guideDiameter <= bitDiameter)
    throw new Fault(
      'template.bush',
      (mm) =>
        `a bit of ${mm(bitDiameter)} does not fit a guide bushing of ${mm(guideDiameter)}. ` +
        'Use a bushing with a larger outside diameter, or a bearing on the bit.',
    );
  const offset = (guideDiameter - bitDiameter) / 2;
  const inside = opening ? -offset : offset;
  const { edges, shape } = Math.abs(inside) < ZERO_OFFSET_MM ? part : offsetShape(part, inside);
  assertParallelFits(finishedLine(shape), part.exact, Math.abs(inside));
  const template = partFromLine(part, { name: `Template: ${part.name}`, edges, shape });
  return { part: template, inside, warnings: unreachableWarnings(part, cutter) };
}

const ZERO_OFFSET_MM = 1e-9;

type TemplateShape = Pick<Part, 'edges' | 'shape'>;
type OffsetSides = ReturnType<typeof offsetPieces>;

function offsetShape(part: Part, inside: number): TemplateShape {
  if (part.shape.type === 'closed') return offsetOutline(part, inside);
  const [edge] = part.edges;
  // Stations run to the right: what lies above is on the left.
  const sides = offsetPieces(edge.pieces, edge.woodIsAbove ? inside : -inside, false);
  const beside = offsetEdge(edge, sides);
  return { edges: [beside], shape: makeLineShape(beside) };
}

/** The outline runs counter-clockwise, its wood on the left: along the lower edge, back along the upper. */
function offsetOutline(part: Part, inside: number): TemplateShape {
  const sides = offsetPieces(part.exact, inside, true);
  const [lower, upper] = edgesAsCut(part) as readonly [PartEdge, PartEdge];
  const under = sides.slice(0, lower.pieces.length);
  const ends = distance(edgeEnd(lower), edgeEnd(upper)) < JOIN_MM ? 0 : 1;
  const start = under.length + ends;
  const over = sides.slice(start, start + upper.pieces.length);
  // Where the parallel grows round a corner, each edge runs on straight up to it.
  const intoUnder = lastOf(sides).corner.slice(-1);
  const intoOver = itemAt(sides, start - 1).corner.slice(-1);
  const outOf = (all: OffsetSides): Segment[] => lastOf(all).corner.slice(0, 1);
  const beside = [
    offsetEdge(lower, under, intoUnder, outOf(under)),
    offsetEdge(upper, reverseSides(over), reversePath(outOf(over)), reversePath(intoOver)),
  ] as const;
  const outline = sides.flatMap(({ side, corner }) => [...side, ...corner]);
  const leastWidth = findLeastWidth(new PolylineBvh(beside[0].pieces), new PolylineBvh(beside[1].pieces));
  return {
    edges: part.edges[0].name === lower.name ? beside : [beside[1], beside[0]],
    shape: { type: 'closed', outline, leastWidth, tenons: [] },
  };
}

const reverseSides = (sides: OffsetSides): OffsetSides =>
  sides.toReversed().map(({ side }, i, all) => ({
    side: reversePath(side),
    corner: i < all.length - 1 ? reversePath(itemAt(sides, sides.length - 2 - i).corner) : [],
  }));

function offsetEdge(
  edge: PartEdge,
  sides: OffsetSides,
  into: readonly Segment[] = [],
  outOf: readonly Segment[] = [],
): PartEdge {
  let next = 0;
  let lead = into;
  const beside = edge.runs.flatMap((run, r): Curve[] => {
    const own = sides.slice(next, next + run.exact.length);
    next += run.exact.length;
    const isLast = r === edge.runs.length - 1;
    const last = lastOf(own);
    const inner = own.slice(0, -1).flatMap(({ side, corner }) => [...side, ...corner]);
    const trail = isLast ? outOf : last.corner.slice(0, 1);
    const path = mergeLines([...lead, ...inner, ...last.side, ...trail]);
    lead = last.corner.slice(1);
    if (path.length === 0) return [];
    const kind = run.kind === 'line' || run.kind === 'arc' ? run.kind : 'spline';
    return [makeCurveFromPath(kind, path)];
  });
  return makeEdge(edge, beside);
}

function mergeLines(path: readonly Segment[]): readonly Segment[] {
  const lines = path.filter((segment) => segment.type === 'line');
  const [first, last] = [lines[0], lines.at(-1)];
  if (!first || !last || first === last || lines.length < path.length) return path;
  const way = direction(angleFrom(first.from, last.to));
  const isStraight = lines.every(({ to }) => Math.abs(cross(way, subtract(to, first.from))) < JOIN_MM);
  return isStraight ? [{ type: 'line', from: first.from, to: last.to }] : path;
}

/** Tangents closer than this meet without a corner, radians: the parallel's own measure. */
const SMOOTH_RADIANS = 1e-7;

/** Where the part is hollower than the bit: neither the bit nor, in the template beside it, the guide gets in. */
function unreachableWarnings(part: Part, cutter: Cutter): Warning[] {
  const { rule } = part;
  const bit = cutter.bitDiameter / 2;
  return part.edges.flatMap(({ name, pieces, woodIsAbove }) => {
    const where = ({ x }: Point): string => `station ${showLength(x, rule)} (${name})`;
    // The sign of curvature, along an edge from left to right, that is a hollow.
    const hollow = (woodIsAbove ? -1 : 1) * (cutter.opening ? -1 : 1);
    const tight = pieces
      .flatMap((piece) => positivePeaks(piece, ({ curvature }) => hollow * curvature * bit - 1))
      .map((place) => tightWarning(where(place), 1 / Math.abs(place.curvature), cutter, rule));
    const corners = neighbors(pieces).flatMap(([piece, next]) => {
      const [before, after] = [pieceEnd(piece), pieceStart(next)];
      const turn = cross(direction(before.angle), direction(after.angle));
      return hollow * turn > SMOOTH_RADIANS ? [cornerWarning(where(after), bit, rule)] : [];
    });
    return [...tight, ...corners];
  });
}

function tightWarning(where: string, radius: number, cutter: Cutter, rule: Rule): Warning {
  const { guide, guideDiameter, bitDiameter } = cutter;
  const inTemplate = radius + (guideDiameter - bitDiameter) / 2;
  const message =
    `the bit (radius ${showSize(bitDiameter / 2, rule)}) does not fit the hollow at ${where} (radius ${showLength(radius, rule)}). ` +
    `The ${guide === 'bush' ? 'bushing' : guide} (radius ${showSize(guideDiameter / 2, rule)}) does not fit the template there ` +
    `(radius ${showLength(inTemplate, rule)}). ` +
    'Use a smaller bit, or finish that place by hand.';
  return { code: 'template.tight', message };
}

const cornerWarning = (where: string, radius: number, rule: Rule): Warning => ({
  code: 'template.inner-corner',
  message: `the bit leaves the inside corner at ${where} with a radius of ${showSize(radius, rule)}. Cut it square by hand.`,
});
