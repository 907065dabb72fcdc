import type { Curve } from '../curves/curve.ts';
import { pathEnds } from '../curves/geometry/evaluate.ts';
import { angleFrom, type Point } from '../curves/geometry/point.ts';
import type { Edge, Job } from '../job/job.ts';
import { type EdgeStep, isRigidStep, stepEnds, stepRun } from '../job/steps/step-kinds.ts';
import { catchFault, type Fault } from '../units/fault.ts';
import { edgeEnd, edgeStart, makeEdge } from './edge.ts';
import { offsetAt } from './offsets.ts';
import type { Part, PartEdge, PartRun } from './part.ts';

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

function heightOf(edge: PartEdge, along: PartEdge): number {
  const middle = (edgeStart(along).x + edgeEnd(along).x) / 2;
  return offsetAt(edge, middle) ?? (edgeStart(edge).y + edgeEnd(edge).y) / 2;
}

/** Judged half-way along. */
export const isBelowReference = (edge: PartEdge): boolean => heightOf(edge, edge) < 0;

export function makeEdgeRuns(edge: Edge, faults: Fault[]): PartRun[] {
  const runs = edge.steps.map((step, i) => {
    const report = (fault: Fault): void => void faults.push(fault.at(step.key));
    return catchFault(() => ({ ...makeRun(edge, i, step), step }), report);
  });
  return runs.filter((run) => run !== undefined);
}

const stepStart = (edge: Edge, i: number): Point => edge.steps[i - 1]?.to ?? edge.from;

function makeRun(edge: Edge, i: number, step: EdgeStep): Curve {
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
function neighborAngle(edge: Edge, i: number, way: 1 | -1): number | undefined {
  const step = edge.steps[i];
  if (!step || !isRigidStep(step)) return undefined;
  if (step.to.x === stepStart(edge, i).x) return neighborAngle(edge, i + way, way);
  const { exact } = makeRun(edge, i, step);
  const [start, end] = pathEnds(exact);
  return (way === 1 ? start : end).angle;
}
