import type { DrawnEdge, Edge } from '../../src/job/job.ts';

/** An edge that the job draws step by step. */
export function drawnEdge(edge: Edge | undefined): DrawnEdge {
  if (!edge || !('steps' in edge)) throw new Error('the job draws no such edge');
  return edge;
}
