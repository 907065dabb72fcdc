import { itemAt, lastOf } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { type CurvePoint, paramCurve, pieceLength } from '../geometry/evaluate.ts';
import { fitCubics } from '../geometry/fit-cubics.ts';
import { type ArcSegment, isShoulder, type Piece, type Segment } from '../geometry/pieces/piece.ts';
import type { Point } from '../geometry/point.ts';
import { add, angleDifference, direction, distance, leftNormal, scale, toPoint } from '../geometry/point.ts';
import { FIT_MM } from '../geometry/tolerance.ts';
import { integrate } from '../numeric/gauss-legendre.ts';

/** Tangents farther apart than this where two pieces meet are a corner, radians: 0.1 mm per meter. */
const CORNER = 1e-4;

/** Largest change on halving the parts, mm: the error of the 20-point rule falls by 2⁴⁰, so far less is left. */
const CONVERGED_MM = FIT_MM / 1000;

/** Up to 4096 parts; a run of furniture converges at 8. */
const MAX_HALVINGS = 10;
const MIN_PARTS = 4;

type StartPose = Pick<CurvePoint, 'x' | 'y' | 'angle'>;
type Step = (from: number, to: number) => Point;

/**
 * The line of the same length and start with `factor` (> 0) times the curvature of the pieces: lines and arcs exact,
 * the rest within FIT_MM.
 * @throws Fault `sharpen.corner` where the pieces meet at an angle: a corner has no curvature to raise
 */
export function sharpen(pieces: readonly Piece[], factor: number): Segment[][] {
  let next: StartPose | undefined;
  assertSmooth(pieces);
  return pieces.map((piece) => {
    const start = paramCurve(piece)(0);
    const { segments, end } = sharpenPiece(piece, next ?? start, factor);
    next = end;
    return segments;
  });
}

/** @throws Fault `sharpen.corner` */
export const assertSmooth = (pieces: readonly Piece[]): void =>
  pieces.slice(1).forEach((piece, i) => {
    assertSmoothJoin(itemAt(pieces, i), piece);
  });

function assertSmoothJoin(before: Piece, after: Piece): void {
  const [end, { x, angle }] = [paramCurve(before)(1), paramCurve(after)(0)];
  if (Math.abs(angleDifference(end.angle, angle)) < CORNER) return;
  const ofShoulder = 'Make the form from a job with the curve only. Cut the shoulder after the glue is hard.';
  const isStep = isShoulder(before) || isShoulder(after);
  const [what, cure] = isStep ? ['shoulder', ofShoulder] : ['corner', 'Change the corner to a curve.'];
  throw new Fault(
    'sharpen.corner',
    (mm) => `the edge has a ${what} at station ${mm(x)}, and plies cannot bend around it. ${cure}`,
  );
}

interface Sharpened {
  readonly segments: Segment[];
  readonly end: StartPose;
}

function sharpenPiece(piece: Piece, start: StartPose, factor: number): Sharpened {
  const from = toPoint(start);
  if (piece.type === 'line') {
    const to = add(from, scale(direction(start.angle), distance(piece.from, piece.to)));
    return { segments: [{ type: 'line', from, to }], end: { ...to, angle: start.angle } };
  }
  if (piece.type === 'arc') return sharpenArc(piece, start, factor);
  const run = sharpenedRun(piece, start, factor);
  return { segments: fitCubics(run, 0, 1, FIT_MM), end: run(1) };
}

function sharpenArc(arc: ArcSegment, start: StartPose, factor: number): Sharpened {
  const radius = arc.radius / factor;
  const side = Math.sign(arc.sweep);
  const centre = add(start, scale(leftNormal(direction(start.angle)), side * radius));
  const from = start.angle - (side * Math.PI) / 2;
  const segment: ArcSegment = { type: 'arc', centre, radius, start: from, sweep: arc.sweep * factor };
  const { x, y } = paramCurve(segment)(1);
  return { segments: [segment], end: { x, y, angle: start.angle + segment.sweep } };
}

function sharpenedRun(piece: Piece, start: StartPose, factor: number): (u: number) => CurvePoint {
  const base = paramCurve(piece);
  const first = base(0).angle;
  const angleAt = (place: CurvePoint): number => start.angle + factor * angleDifference(first, place.angle);
  const step: Step = (from, to) => {
    const moved = (part: (angle: number) => number): number => {
      const pace = (place: CurvePoint): number => part(angleAt(place)) * place.speed;
      return integrate((u) => pace(base(u)), from, to);
    };
    return { x: moved(Math.cos), y: moved(Math.sin) };
  };
  const joints = integrateUntilConverged(step, start, pieceLength(piece));
  const parts = joints.length - 1;
  return (u) => {
    const i = Math.min(parts - 1, Math.floor(u * parts));
    const place = base(u);
    const { x, y } = u * parts === i ? itemAt(joints, i) : add(itemAt(joints, i), step(i / parts, u));
    return { x, y, angle: angleAt(place), curvature: factor * place.curvature, speed: place.speed };
  };
}

function integrateUntilConverged(step: Step, start: StartPose, length: number): Point[] {
  let joints = integrateParts(step, start, MIN_PARTS);
  for (let halving = 1; halving <= MAX_HALVINGS; halving++) {
    const finer = integrateParts(step, start, MIN_PARTS * 2 ** halving);
    if (distance(lastOf(finer), lastOf(joints)) < CONVERGED_MM) return finer;
    joints = finer;
  }
  throw new Error(`sharpen: a piece ${length} mm long does not settle`);
}

function integrateParts(step: Step, start: StartPose, parts: number): Point[] {
  const joints: Point[] = [toPoint(start)];
  for (let i = 0; i < parts; i++) joints.push(add(itemAt(joints, i), step(i / parts, (i + 1) / parts)));
  return joints;
}
