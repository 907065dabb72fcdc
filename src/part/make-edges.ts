import type { Curve } from '../curves/curve.ts';
import { pathEnds } from '../curves/geometry/evaluate.ts';
import { angleFrom, type Point } from '../curves/geometry/point.ts';
import { type DrawnEdge, type Edge, isParallelEdge, type Job } from '../job/job.ts';
import { type EdgeStep, isRigidStep, stepEnds, stepRun } from '../job/steps/step-kinds.ts';
import { itemAt } from '../units/checked.ts';
import { catchFault, type Fault } from '../units/fault.ts';
import { edgeEnd, edgeStart, makeEdge } from './edge.ts';
import { offsetAt } from './offsets.ts';
import { makeParallelEdge } from './parallel-edge.ts';
import type { Part, PartEdge, PartRun } from './part.ts';

/** Of drawn edges and, where the job has one, the parallel of the other. @throws Fault `parallel.…`, `ends.…` */
export function makeEdges(job: Job, runs: readonly (readonly PartRun[])[]): Part['edges'] {
  const [first, second] = job.edges.map((edge, i) => {
    if (isParallelEdge(edge)) return makeParallelEdge(edge, itemAt(runs, 1 - i), job);
    return makeEdge({ name: edge.name, key: edge.key, woodIsAbove: false }, itemAt(runs, i));
  });
  if (!first) throw new Error('a job has at least one edge');
  if (!second) return [{ ...first, woodIsAbove: isBelowReference(first) }];
  const isFirstLower = heightOf(first, first) <= heightOf(second, first);
  return [
    { ...first, woodIsAbove: isFirstLower },
    { ...second, woodIsAbove: !isFirstLower },
  ];
}

function heightOf(edge: PartEdge, along: PartEdge): number {
  const middle = (edgeStart(along).x + edgeEnd(along).x) / 2;
  return offsetAt(edge, middle) ?? (edgeStart(edge).y + edgeEnd(edge).y) / 2;
}

/** Judged half-way along. */
export const isBelowReference = (edge: PartEdge): boolean => heightOf(edge, edge) < 0;

/** None of a parallel, whose runs follow from those of the other edge. */
export function makeEdgeRuns(edge: Edge, faults: Fault[]): PartRun[] {
  if (isParallelEdge(edge)) return [];
  const runs = edge.steps.map((step, i) => {
    const report = (fault: Fault): void => void faults.push(fault.at(step.key));
    return catchFault(() => ({ ...makeRun(edge, i, step), step }), report);
  });
  return runs.filter((run) => run !== undefined);
}

const stepStart = (edge: DrawnEdge, i: number): Point => edge.steps[i - 1]?.to ?? edge.from;

function makeRun(edge: DrawnEdge, i: number, step: EdgeStep): Curve {
  const from = stepStart(edge, i);
  // A held end leaves along the line or arc that it meets; along the run's own chord where there is none.
  const [start, end] = stepEnds(step);
  const held = (angle: number | undefined) => ({ held: angle ?? angleFrom(from, step.to) });
  return stepRun(from, step, {
    start: start === 'free' ? 'free' : held(neighborAngle(edge, i - 1, -1)),
    end: end === 'free' ? 'free' : held(neighborAngle(edge, i + 1, 1)),
  });
}

/** The direction of a line or arc beside a held end; a strip gives way and has none, a shoulder that of the next step. */
function neighborAngle(edge: DrawnEdge, i: number, way: 1 | -1): number | undefined {
  const step = edge.steps[i];
  if (!step || !isRigidStep(step)) return undefined;
  if (step.to.x === stepStart(edge, i).x) return neighborAngle(edge, i + way, way);
  const { exact } = makeRun(edge, i, step);
  const [start, end] = pathEnds(exact);
  return (way === 1 ? start : end).angle;
}
