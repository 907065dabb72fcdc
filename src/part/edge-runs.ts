import { segmentEnd, segmentStart } from '../curves/along.ts';
import { arc } from '../curves/arc.ts';
import { batten } from '../curves/batten.ts';
import type { Curve } from '../curves/curve.ts';
import { line } from '../curves/line.ts';
import { angleOf, type Point } from '../curves/point.ts';
import { type SplineEnd, spline } from '../curves/spline.ts';
import type { Edge, End, Step } from '../job/job.ts';
import { Fault } from '../units/fault.ts';

/** The runs of an edge, each from where the last one ended; every run's fault goes to `faults`. */
export function edgeRuns(edge: Edge, faults: Fault[]): Curve[] {
  return edge.steps.flatMap((step, i) => {
    try {
      return [runOf(edge, i)];
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      faults.push(error.at(step.key));
      return [];
    }
  });
}

const startOf = (edge: Edge, i: number): Point => (i === 0 ? edge.from : edge.steps[i - 1]!.to);

function runOf(edge: Edge, i: number): Curve {
  const step = edge.steps[i]!;
  const from = startOf(edge, i);
  switch (step.kind) {
    case 'line':
      return line(from, step.to);
    case 'arc':
      return arc(from, step.to, step.by);
    case 'batten':
      return batten(from, step.to, step.by);
    case 'spline': {
      const chord = angleOf(from, step.to);
      const end = (kept: End, angle: number | undefined): SplineEnd =>
        kept === 'free' ? 'natural' : { held: angle ?? chord };
      return spline(
        [from, ...step.through, step.to],
        end(step.ends[0], neighbourAngle(edge, i - 1, segmentEnd)),
        end(step.ends[1], neighbourAngle(edge, i + 1, segmentStart)),
      );
    }
  }
}

const isStiff = (step: Step): boolean => step.kind === 'line' || step.kind === 'arc';

/** The direction in which a neighbouring line or arc meets a held end; strips give way and set none. */
function neighbourAngle(edge: Edge, i: number, meet: typeof segmentEnd): number | undefined {
  const step = edge.steps[i];
  if (!step || !isStiff(step)) return undefined;
  const run = runOf(edge, i);
  return meet(meet === segmentEnd ? run.exact.at(-1)! : run.exact[0]!).angle;
}
