import { pathBox } from '../curves/geometry/bounds.ts';
import { piecesLength } from '../curves/geometry/evaluate.ts';
import type { Segment } from '../curves/geometry/pieces/piece.ts';
import type { Job } from '../job/job.ts';
import { Fault, Faults } from '../units/fault.ts';
import { stockFaults } from './check-stock-fit.ts';
import { reachOf } from './edge.ts';
import { edgeRuns } from './edge-runs.ts';
import { finishedLine } from './finished-line.ts';
import { type JointGround, jointFaults, jointWarnings } from './joints/joint-checks.ts';
import { outlineOf } from './outline/outline.ts';
import { parallelLine } from './outline/saw-line.ts';
import type { Part, PartEdge, Shape } from './part.ts';
import { nailWarnings, stockWarnings } from './part-warnings.ts';

/**
 * Works a job out: its curves, its outline or line, the saw line and the checks against the stock.
 * @throws Faults with every mistake found, each with its key of the job file
 */
export function makePart(job: Job): Part {
  const faults: Fault[] = [];
  const edges = job.edges.map((edge): PartEdge => {
    const runs = edgeRuns(edge, faults);
    return { name: edge.name, runs, length: runs.reduce((sum, run) => sum + piecesLength(run.exact), 0) };
  }) as readonly PartEdge[] as Part['edges']; // as many as the job has
  stopAt(faults);
  const outline = caught(faults, () => outlineOf(edges, job));
  stopAt(faults);
  const { shape, exact, ends } = outline!;
  const saw = caught(faults, () => sawLine({ shape, exact, edges }, job.sawAllowance));
  stopAt(faults);
  const finished = finishedLine(shape);
  const box = pathBox(finished);
  const bounds = pathBox([...finished, ...saw!]);
  const ground = jointGround(shape, finished, saw!, edges, job);
  if (job.stock) faults.push(...stockFaults(finished, box, job.stock));
  faults.push(...jointFaults(job.joints, ground));
  stopAt(faults);
  return {
    name: job.part,
    rule: job.rule,
    quantity: job.quantity,
    ...(job.stock && { stock: job.stock }),
    ...(job.notes !== undefined && { notes: job.notes }),
    edges,
    shape,
    exact,
    ...(ends && { ends }),
    joints: job.joints,
    sawAllowance: job.sawAllowance,
    saw: saw!,
    bounds,
    warnings: [
      ...nailWarnings(edges, job.rule),
      ...stockWarnings(job, bounds),
      ...jointWarnings(job.joints, ground, job.rule),
    ],
    job,
  };
}

function jointGround(
  { type }: Shape,
  finished: readonly Segment[],
  saw: readonly Segment[],
  edges: readonly PartEdge[],
  { stock }: Job,
): JointGround {
  const [from, to] = reachOf(edges);
  return { closed: type === 'closed', finished, saw, from, to, thickness: stock?.thickness };
}

function stopAt(faults: readonly Fault[]): void {
  const [first, ...rest] = faults;
  if (first) throw new Faults([first, ...rest]);
}

function caught<T>(faults: Fault[], make: () => T): T | undefined {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    faults.push(error);
    return undefined;
  }
}

function sawLine(line: Pick<Part, 'shape' | 'exact' | 'edges'>, allowance: number): Segment[] {
  if (allowance === 0) return [];
  try {
    return parallelLine(line, allowance);
  } catch (error) {
    throw error instanceof Fault ? error.at('allowance.saw') : error;
  }
}
