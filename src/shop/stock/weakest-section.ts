import { closestPoint } from '../../curves/geometry/closest-point.ts';
import { minimizeAlong } from '../../curves/geometry/extrema.ts';
import { lineCrossings } from '../../curves/geometry/line-crossings.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { add, direction, dot, leftNormal, type Point, scale, subtract } from '../../curves/geometry/point.ts';
import { type CuttingJoint, isCuttingJoint } from '../../job/joints/joint-kinds.ts';
import { isOnEdge } from '../../job/joints/joint-side.ts';
import { isInTenon } from '../../part/ends/tenons.ts';
import { jointExtent, planOutline, sunkDepth } from '../../part/joints/edge-joint.ts';
import { jointFrame } from '../../part/joints/joint-frame.ts';
import { edgesAsCut } from '../../part/outline/outline.ts';
import type { Part } from '../../part/part.ts';

export interface CrossSection {
  readonly at: Point;
  readonly height: number;
  readonly weakened: boolean;
  /** Its section modulus in the plane of the face over that of a straight board of the same thickness. */
  readonly share: number;
}

/**
 * Compared with a board `straight` mm wide. A rectangle h high has the section modulus t·h²/6, less what joints take
 * out by the parallel axis theorem. Runout, knots, glue lines and tenons do not count.
 */
export function weakestSection(part: Part, straight: number): CrossSection | undefined {
  const { shape, joints } = part;
  if (shape.type !== 'closed') return undefined;
  const { leastWidth, tenons } = shape;
  const { width, at } = leastWidth;
  const narrow: CrossSection = { at, height: width, weakened: false, share: (width / straight) ** 2 };
  const through = joints
    .filter(isCuttingJoint)
    .flatMap((joint) => sectionsThrough(joint, part, straight))
    .filter((section) => !isInTenon(tenons, section.at.x));
  return [narrow, ...through].reduce((a, b) => (b.share < a.share ? b : a));
}

/** Sections along one joint, from end to end: the part may taper there. */
const CUTS_PER_JOINT = 9;

function sectionsThrough(joint: CuttingJoint, part: Part, straight: number): CrossSection[] {
  const outline = planOutline(joint, part);
  const middle = isOnEdge(joint) ? middleInWood(joint, part) : joint.at;
  if (!middle) return [];
  const way = direction(partDirectionAt(part, middle));
  const reach = jointReach(outline, middle, way);
  return Array.from({ length: CUTS_PER_JOINT }, (_, i) => {
    const at = add(middle, scale(way, reach * 0.98 * ((2 * i) / (CUTS_PER_JOINT - 1) - 1)));
    return sectionAt(part, at, way, straight);
  }).filter((section) => section !== undefined);
}

/** Half-way down a joint on an edge. */
function middleInWood(joint: CuttingJoint, part: Part): Point | undefined {
  const depth = sunkDepth(joint, part);
  return depth === undefined ? undefined : jointFrame(joint, part)?.place(joint.at, depth / 2);
}

function partDirectionAt(part: Part, to: Point): number {
  const angles = edgesAsCut(part).map((edge) => closestPoint(edge.pieces, to).at.angle);
  return angles.reduce((sum, angle) => sum + angle, 0) / angles.length;
}

function jointReach(outline: readonly Segment[], middle: Point, way: Point): number {
  const ahead = (at: Point): number => dot(subtract(at, middle), way);
  return Math.max(...outline.map((one) => ahead(minimizeAlong(one, (at) => -ahead(at)))));
}

function sectionAt(part: Part, at: Point, way: Point, straight: number): CrossSection | undefined {
  const { shape, joints } = part;
  if (shape.type !== 'closed') return undefined;
  const edges = lineCrossings(shape.outline, at, leftNormal(way));
  const [low, high] = [Math.max(...edges.filter((s) => s < 0)), Math.min(...edges.filter((s) => s > 0))];
  if (!Number.isFinite(high - low)) return undefined;
  const taken = joints.filter(isCuttingJoint).flatMap((joint): SectionSlice[] => {
    const hits = lineCrossings(planOutline(joint, part), at, leftNormal(way));
    const [from, to] = [Math.max(low, Math.min(...hits)), Math.min(high, Math.max(...hits))];
    return hits.length > 1 && from < to ? [{ low: from, high: to, share: -shareTaken(joint, part) }] : [];
  });
  const modulus = sectionModulus([{ low, high, share: 1 }, ...taken]);
  const middle = add(at, scale(leftNormal(way), (low + high) / 2));
  const [weakened, share] = [taken.length > 0, modulus / (straight ** 2 / 6)];
  return { at: middle, height: high - low, weakened, share };
}

/** Of the thickness. */
function shareTaken(joint: CuttingJoint, { stock }: Part): number {
  const { bottom, top } = jointExtent(joint);
  const taken = isOnEdge(joint) ? top - bottom : joint.depth;
  return taken === undefined || stock?.thickness === undefined ? 1 : Math.min(1, taken / stock.thickness);
}

export interface SectionSlice {
  readonly low: number;
  readonly high: number;
  /** Of the thickness: negative where wood is taken out. */
  readonly share: number;
}

/** Per thickness, mm²: second moment about the centroid over the distance to the farther side of the first, whole slice. */
export function sectionModulus(slices: readonly [SectionSlice, ...SectionSlice[]]): number {
  const sum = (value: (low: number, high: number) => number): number =>
    slices.reduce((total, { low, high, share }) => total + share * value(low, high), 0);
  const area = sum((low, high) => high - low);
  const axis = sum((low, high) => (high ** 2 - low ** 2) / 2) / area;
  const second = sum((low, high) => ((high - axis) ** 3 - (low - axis) ** 3) / 3);
  const [{ low, high }] = slices;
  return second / Math.max(high - axis, axis - low);
}
