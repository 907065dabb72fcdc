import type { Curve } from '../curves/curve.ts';
import { batten } from '../curves/elastica/batten.ts';
import { bow } from '../curves/elastica/bow.ts';
import type { StripEnds } from '../curves/elastica/solve-strip.ts';
import { pieceEnd, pieceStart } from '../curves/geometry/evaluate.ts';
import { angleFrom, type Point } from '../curves/geometry/point.ts';
import { arc } from '../curves/simple/arc.ts';
import { ellipse } from '../curves/simple/ellipse.ts';
import { line } from '../curves/simple/line.ts';
import { spline } from '../curves/simple/spline.ts';
import { taperedBatten } from '../curves/tapered/tapered-batten.ts';
import type { Edge, EdgeStep, EndCondition, Job } from '../job/job.ts';
import { Fault } from '../units/fault.ts';
import { edgeEnd, edgeStart, makeEdge } from './edge.ts';
import { offsetAt } from './offsets.ts';
import type { Part, PartEdge, PartRun } from './part.ts';

/** The edges of a job, given the runs of each. */
export function makeEdges(edges: Job['edges'], runs: readonly (readonly PartRun[])[]): Part['edges'] {
  const [first, second] = edges.map((edge, i) => makeEdge({ ...edge, woodIsAbove: false }, runs[i] ?? []));
  if (!first) throw new Error('a job has at least one edge');
  if (!second) return [{ ...first, woodIsAbove: isBelowReference(first) }];
  const isFirstLower = heightOf(first, first) <= heightOf(second, first);
  return [
    { ...first, woodIsAbove: isFirstLower },
    { ...second, woodIsAbove: !isFirstLower },
  ];
}

/** An edge's offset half-way along another one. */
function heightOf(edge: PartEdge, along: PartEdge): number {
  const middle = (edgeStart(along).x + edgeEnd(along).x) / 2;
  return offsetAt(edge, middle) ?? (edgeStart(edge).y + edgeEnd(edge).y) / 2;
}

/** Whether an edge lies below the reference line, judged half-way along. */
export function isBelowReference(edge: PartEdge): boolean {
  const [from, to] = [edgeStart(edge), edgeEnd(edge)];
  return (offsetAt(edge, (from.x + to.x) / 2) ?? from.y + to.y) < 0;
}

/** The runs of an edge, each from where the last one ended; every run's fault goes to `faults`. */
export function makeEdgeRuns(edge: Edge, faults: Fault[]): PartRun[] {
  return edge.steps.flatMap((step, i) => {
    try {
      return [{ ...makeRun(edge, i), step }];
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      faults.push(error.at(step.key));
      return [];
    }
  });
}

const stepStart = (edge: Edge, i: number): Point => (i === 0 ? edge.from : edge.steps[i - 1]!.to);

function makeRun(edge: Edge, i: number): Curve {
  const step = edge.steps[i]!;
  const from = stepStart(edge, i);
  switch (step.kind) {
    case 'line':
      return line(from, step.to);
    case 'arc':
      return arc(from, step.to, step.by);
    case 'bow':
      return bow(from, step.to, step.rise);
    case 'ellipse':
      return ellipse(from, step.to, step.rise);
    case 'batten':
      return makeBattenRun(step, from, stripEnds(edge, i, step.ends));
    case 'spline': {
      const { start, end } = stripEnds(edge, i, step.ends);
      const pins = [from, ...step.through, step.to];
      return spline(pins, start === 'free' ? 'natural' : start, end === 'free' ? 'natural' : end);
    }
  }
}

function makeBattenRun(step: Extract<EdgeStep, { kind: 'batten' }>, from: Point, ends: StripEnds): Curve {
  const { by, strip, to } = step;
  if (!strip) return batten(from, to, by, ends);
  if ('apex' in by) return taperedBatten(from, to, by, strip, ends);
  const [nail, another] = by.through;
  if (another)
    throw new Fault(
      'batten.taper-nails',
      'a tapered strip is bent over one nail only. Keep one, or leave out "strip" for an even strip.',
    );
  return taperedBatten(from, to, { nail }, strip, ends);
}

/** A held end leaves along the line or arc it meets; along the run's own chord where there is none. */
function stripEnds(edge: Edge, i: number, [start, end]: readonly [EndCondition, EndCondition]): StripEnds {
  const chord = angleFrom(stepStart(edge, i), edge.steps[i]!.to);
  const kept = (how: EndCondition, angle: number | undefined): StripEnds['start'] =>
    how === 'free' ? 'free' : { held: angle ?? chord };
  return {
    start: kept(start, neighbourAngle(edge, i - 1, pieceEnd)),
    end: kept(end, neighbourAngle(edge, i + 1, pieceStart)),
  };
}

const isRigid = (step: EdgeStep): boolean => step.kind === 'line' || step.kind === 'arc';

/**
 * The direction in which a neighbouring line or arc meets a held end; strips give way and set none. A shoulder
 * lies across the strip: it is held in line with what comes beyond.
 */
function neighbourAngle(edge: Edge, i: number, meet: typeof pieceEnd): number | undefined {
  const step = edge.steps[i];
  if (!step || !isRigid(step)) return undefined;
  if (step.to.x === stepStart(edge, i).x)
    return neighbourAngle(edge, meet === pieceEnd ? i - 1 : i + 1, meet);
  const run = makeRun(edge, i);
  return meet(meet === pieceEnd ? run.exact.at(-1)! : run.exact[0]!).angle;
}
