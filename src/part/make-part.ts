import { pathBounds } from '../curves/geometry/bounds.ts';
import type { Job } from '../job/job.ts';
import { catchFault, type Fault, Faults, throwFaults } from '../units/fault.ts';
import { stockFaults } from './check-stock-fit.ts';
import { stackFaults } from './derived/ply-stack.ts';
import { stationRange, upperEdge } from './edge.ts';
import { withStandingEnds } from './ends/standing.ts';
import { jointFaults, jointWarnings } from './joints/joint-checks.ts';
import { withLevelAngles } from './joints/level-joints.ts';
import { makeEdgeRuns, makeEdges } from './make-edges.ts';
import { makeOutline } from './outline/outline.ts';
import { parallelLine } from './outline/saw-line.ts';
import type { Part } from './part.ts';
import { finishedLine } from './part-lines.ts';
import { nailWarnings, stockWarnings } from './part-warnings.ts';

/** Works a job out and checks it. @throws Faults with every mistake found, each with its key of the job file */
export function makePart(given: Job): Part {
  const faults: Fault[] = [];
  const runs = given.edges.map((edge) => makeEdgeRuns(edge, faults));
  throwFaults(faults);
  const edges = asFaults(() => makeEdges(given, runs));
  const job = withStandingEnds(given, upperEdge(edges).name);
  const { shape, exact, ends } = asFaults(() => makeOutline(edges, job));
  const makeSawLine = () => parallelLine({ shape, exact, edges }, job.sawAllowance);
  const saw = job.sawAllowance === 0 ? [] : asFaults(makeSawLine, 'allowance.saw');
  const finished = finishedLine(shape);
  const box = pathBounds(finished);
  const bounds = pathBounds([...finished, ...saw]);
  const [from, to] = stationRange(edges);
  const thickness = job.stock?.thickness;
  const closed = shape.type === 'closed';
  const wood = { edges, ...(job.stock && { stock: job.stock }), ...(ends && { ends }) };
  const joints = withLevelAngles({ joints: job.joints, ...wood });
  const ground = { closed, finished, saw, from, to, thickness, part: wood };
  if (job.laminate) faults.push(...stackFaults(job, edges, ends));
  else if (job.stock) faults.push(...stockFaults(finished, box, job.stock));
  faults.push(...jointFaults(joints, ground));
  throwFaults(faults);
  const { part: name, ends: _settings, ...kept } = job;
  const ofJoints = jointWarnings(joints, ground, job.rule);
  const warnings = [
    ...nailWarnings(edges, job.rule),
    ...(job.laminate ? [] : stockWarnings(job, bounds)),
    ...ofJoints,
  ];
  return { ...kept, name, joints, edges, shape, exact, ...(ends && { ends }), saw, bounds, warnings };
}

/** A part made from another: nothing but a line to cut. */
export function partFromLine(
  { stock: _stock, notes: _notes, ends: _ends, stands: _stands, laminate: _laminate, ...kept }: Part,
  own: Pick<Part, 'name' | 'edges' | 'shape'>,
): Part {
  const exact = finishedLine(own.shape);
  const bare = { quantity: 1, joints: [], sawAllowance: 0, saw: [], warnings: [] };
  return { ...kept, ...own, ...bare, exact, bounds: pathBounds(exact) };
}

const asFaults = <T>(make: () => T, key?: string): T =>
  catchFault(make, (fault) => {
    throw new Faults([key === undefined ? fault : fault.at(key)]);
  });
