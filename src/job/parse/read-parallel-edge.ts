import type { Unit } from '../../units/unit.ts';
import type { ParallelEdge } from '../job.ts';
import { PARALLEL_KEYS } from '../job-keys.ts';
import { readLength, readWord } from './read-values.ts';
import { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

const CURE = 'Write the name of the other edge and a distance, such as "parallel: inside" and "by: 1 3/4".';

/** `other` is the name of the other edge, if there is one. Undefined where a mistake is reported. */
export function readParallelEdge(
  name: string,
  node: YamlNode,
  unit: Unit,
  other: string | undefined,
): ParallelEdge | undefined {
  const mapping = YamlMapping.of(node, CURE, PARALLEL_KEYS);
  const of = mapping?.require('parallel', CURE);
  const distance = mapping?.require('by', CURE);
  const by = distance && readLength(distance, unit);
  if (of && other === undefined)
    return of.report(
      'job.parallel',
      'this job has no other edge. Add the edge that this one is parallel to.',
    );
  const parallel = of && other !== undefined && readWord(of, [other], () => `Write ${other}.`);
  if (by === 0)
    return distance?.report(
      'job.parallel',
      'a parallel at a distance of 0 is the edge itself. Use a distance such as 1 3/4.',
    );
  return parallel && by !== undefined ? { name, parallel, by, key: node.key } : undefined;
}
