import { type CurvePoint, derivative, paramCurve, pieceStart } from '../../curves/geometry/evaluate.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { add, lerp, type Point, point, scale, subtract, toPoint } from '../../curves/geometry/point.ts';
import { polygon } from '../../curves/geometry/transform.ts';
import { integrate } from '../../curves/numeric/gauss-legendre.ts';
import { isCuttingJoint, jointLean, jointShape } from '../../job/joints/joint-kinds.ts';
import { leanShift, leanStretch } from '../../job/joints/lean.ts';
import type { PartEnd } from '../ends/end-planes.ts';
import { sunkDepth } from '../joints/edge-joint.ts';
import { jointFrame } from '../joints/joint-frame.ts';
import type { Part } from '../part.ts';
import { finishedLine } from '../part-lines.ts';

/** mm² */
export interface AreaAndCentroid {
  readonly area: number;
  readonly centroid: Point;
}

/** mm³ */
export interface Solid {
  readonly volume: number;
  /** In the plane of the face. */
  readonly centroid: Point;
}

/** Area, and area times its centroid, signed: they add up. */
interface Moments {
  readonly size: number;
  readonly first: Point;
}

/**
 * By Green's theorem: 2A = ∮ x dy − y dx, 2A·x̄ = ∮ x² dy, 2A·ȳ = −∮ y² dx. The 20-point rule is exact on a cubic
 * (degree 8 at most) and to rounding on an arc.
 */
export function faceOf(path: readonly Segment[]): AreaAndCentroid {
  const [first] = path;
  if (!first) return { area: 0, centroid: point(0, 0) };
  const from = toPoint(pieceStart(first));
  // From a place on the path, so that a part far out along the line loses no digits.
  const { size, first: balance } = sumMoments(path.map((segment) => momentsOf(segment, from)));
  return { area: Math.abs(size), centroid: add(from, scale(balance, 1 / size)) };
}

function momentsOf(segment: Segment, from: Point): Moments {
  const at = paramCurve(segment);
  const sum = (value: (p: Point, d: Point) => number): number => {
    const valueAt = (place: CurvePoint): number => value(subtract(place, from), derivative(place));
    return integrate((u) => valueAt(at(u)), 0, 1);
  };
  const first = point(sum((p, d) => p.x ** 2 * d.y) / 2, -sum((p, d) => p.y ** 2 * d.x) / 2);
  return { size: sum((p, d) => p.x * d.y - p.y * d.x) / 2, first };
}

const NO_MOMENTS: Moments = { size: 0, first: point(0, 0) };

const sumMoments = (all: readonly Moments[]): Moments =>
  all.reduce((a, b) => ({ size: a.size + b.size, first: add(a.first, b.first) }), NO_MOMENTS);

/**
 * Between the faces of a slanting end the edges count as straight: that errs by 1/300 of the volume at most where they
 * bend hard and the end leans 35° through wood a fifth as thick as the part is long, elsewhere by far less.
 */
export function volumeOf(part: Part): Solid | undefined {
  const { shape, ends, joints, stock } = part;
  const thickness = stock?.thickness;
  if (shape.type !== 'closed' || thickness === undefined) return undefined;
  const taken = joints.filter(isCuttingJoint).map((joint): Moments => {
    const depth = sunkDepth(joint, part) ?? 0;
    const { area, centroid } = faceOf(jointShape(joint).outline);
    const lean = jointLean(joint);
    const middle = add(centroid, leanShift(lean, depth / 2));
    const seen = jointFrame(joint, part)?.place(middle, depth / 2) ?? middle;
    return scaleMoments({ area: area * leanStretch(lean), centroid: toPoint(seen) }, -depth);
  });
  const slants = (ends ?? []).map((end) => slantMoments(end, thickness));
  const face = scaleMoments(faceOf(finishedLine(shape)), thickness);
  const { size, first } = sumMoments([face, ...slants, ...taken]);
  return { volume: size, centroid: scale(first, 1 / size) };
}

const scaleMoments = ({ area, centroid }: AreaAndCentroid, k: number): Moments => {
  return { size: area * k, first: scale(centroid, area * k) };
};

/** What a slanting cut adds to the face's own prism: Gauss's rule is exact, as the moments are of degree 3 in the depth. */
function slantMoments({ side, face, back }: PartEnd, thickness: number): Moments {
  const out = side === 'right' ? 1 : -1;
  const sum = (value: (m: Moments) => number): number =>
    integrate((share) => value(areaBetween(face, cutLineAt(face, back, share), out)), 0, 1) * thickness;
  const [x, y] = [sum(({ first }) => first.x), sum(({ first }) => first.y)];
  return { size: sum(({ size }) => size), first: point(x, y) };
}

type EndCutLine = PartEnd['face'];

const cutLineAt = (face: EndCutLine, back: EndCutLine, share: number): EndCutLine => [
  lerp(face[0], back[0], share),
  lerp(face[1], back[1], share),
];

function areaBetween([low, high]: EndCutLine, [lower, higher]: EndCutLine, out: 1 | -1): Moments {
  const about = sumMoments(polygon([low, lower, higher, high]).map((side) => momentsOf(side, point(0, 0))));
  return { size: about.size * out, first: scale(about.first, out) };
}
