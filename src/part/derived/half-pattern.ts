import { pathBounds } from '../../curves/geometry/bounds.ts';
import { pieceEnd, samplePiece } from '../../curves/geometry/evaluate.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { type Joint, jointAngles, jointLengths, jointOrigin } from '../../job/joints/joint-kinds.ts';
import { Fault } from '../../units/fault.ts';
import { stationRange } from '../edge.ts';
import { offsetsAt } from '../offsets.ts';
import type { Part, PartEdge, PartShape } from '../part.ts';
import { finishedLine } from '../part-lines.ts';
import { clipLeftOfStation } from './clip-path.ts';

/** A third of a pencil line (0.3 mm) is not seen when the pattern is flipped; a length rounded to 1/64 in (0.4 mm) is. */
const SYMMETRY_MM = 0.1;

/** Places taken on each segment: on a 1 m curve one each 16 mm, where a kink of SYMMETRY_MM is not missed. */
const SAMPLES_PER_SEGMENT = 64;

/** Radians: 0.1 mm over 100 mm, no more than the lines may be off. */
const ANGLE_TOLERANCE = 1e-3;

/**
 * The left half with the line to flip it on; its edges stay whole, as they say what the part is.
 * @throws Fault `half.not-symmetric`, `half.ends`, `half.joints`, `half.doubles-back`
 */
export function halfOf(part: Part): Part {
  const [first, last] = stationRange(part.edges);
  const station = (first + last) / 2;
  for (const edge of part.edges) assertSymmetric(edge, station);
  assertEndsMirrored(part);
  assertJointsMirrored(part.joints, station);
  const middles = part.edges.map((edge) => middlePoint(edge, station));
  const line = clipToHalf(finishedLine(part.shape), station, part);
  const saw = part.saw.length > 0 ? clipToHalf(part.saw, station, part) : [];
  const [from] = part.shape.type === 'line' ? part.shape.chord : [];
  const chord = from && ([from, point(station, from.y)] as const);
  const heights = [...middles, ...(from ? [from] : [])].map(({ y }) => y);
  const centre = [point(station, Math.min(...heights)), point(station, Math.max(...heights))] as const;
  const shape: PartShape = { type: 'half', line, centre, middles, ...(chord && { chord }) };
  return { ...part, shape, saw, bounds: pathBounds([...line, ...saw]) };
}

function assertSymmetric({ name, path }: PartEdge, station: number): void {
  const polyline = new PolylineBvh(path);
  const { off, x } = path
    .flatMap((segment) => samplePiece(segment, SAMPLES_PER_SEGMENT))
    .map(({ x, y }) => ({ off: polyline.closestPoint({ x: 2 * station - x, y }).distance, x }))
    .reduce((worst, one) => (one.off > worst.off ? one : worst));
  if (off <= SYMMETRY_MM) return;
  throw new Fault(
    'half.not-symmetric',
    (mm) =>
      `the two halves differ by ${mm(off)} at station ${mm(x)}, on the edge "${name}". ` +
      `Make them mirror images about station ${mm(station)}, or print the whole pattern.`,
  );
}

/** Ends that lean against each other are mirror images; a tilt through the wood has none on the same face. */
function assertEndsMirrored({ ends }: Part): void {
  if (!ends) return;
  const [{ angles: left }, { angles: right }] = ends;
  if (left.splay === 0 && right.splay === 0 && Math.abs(left.rake + right.rake) < ANGLE_TOLERANCE) return;
  throw new Fault(
    'half.ends',
    'the two ends are not mirror images of each other. Print the whole pattern.',
    'ends',
  );
}

function assertJointsMirrored(joints: Part['joints'], station: number): void {
  const mirrors = joints.map((joint) => jointSignature(joint, station, -1));
  const odd = joints.find((joint) => !mirrors.includes(jointSignature(joint, station, 1)));
  if (!odd) return;
  throw new Fault(
    'half.joints',
    (mm) =>
      `this ${odd.kind} has no match on the other side of the middle, station ${mm(station)}. ` +
      'Print the whole pattern.',
    odd.key,
  );
}

/** What a joint is and where, seen from the middle towards its right (or, by −1, its left). */
function jointSignature(joint: Joint, station: number, way: 1 | -1): string {
  const near = (mm: number): number => Math.round(mm / SYMMETRY_MM) + 0;
  const { at, out } = jointOrigin(joint);
  const place = [at === undefined ? '' : near(way * (at - station)), out === undefined ? '' : near(out)];
  const angles = jointAngles(joint, way).map((angle) => Math.round(angle / ANGLE_TOLERANCE) + 0);
  return [joint.kind, joint.face, ...place, ...jointLengths(joint).map(near), ...angles].join();
}

function middlePoint(edge: PartEdge, station: number): Point {
  const [offset, ...more] = offsetsAt(edge, station);
  if (offset === undefined || more.length > 0) throw doublesBackFault(edge.name, station);
  return point(station, offset);
}

function clipToHalf(path: Part['saw'], station: number, { name }: Part): Part['saw'] {
  const [stretch, ...more] = clipLeftOfStation(path, station);
  const end = stretch?.at(-1);
  if (!stretch || !end || more.length > 0 || Math.abs(pieceEnd(end).x - station) > JOIN_MM)
    throw doublesBackFault(name, station);
  return stretch;
}

const doublesBackFault = (name: string, station: number): Fault =>
  new Fault(
    'half.doubles-back',
    (mm) =>
      `"${name}" does not cross its middle, station ${mm(station)}, exactly once. Print the whole pattern.`,
  );
