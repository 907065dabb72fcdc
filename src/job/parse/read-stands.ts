import { lastOf } from '../../units/checked.ts';
import type { Job, Stands } from '../job.ts';
import { FOOT_OUT_KEYS, STANDS_KEYS } from '../job-keys.ts';
import { MAX_END_ANGLE } from './read-ends.ts';
import { omitUndefined, readAngle, readWord } from './read-values.ts';
import { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

const CURE =
  'Write the end on the floor and how far it is out of plumb, such as "foot: left" and "foot-out: {outer: 6, other-face: 4}".';
const ANGLE_CURE = 'Use an angle larger than 0. For the other direction, name the other side.';

/** `edges` are undefined where they could not be read. Undefined where a mistake is reported. */
export function readStands(node: YamlNode, edges: Job['edges'] | undefined): Stands | undefined {
  const mapping = YamlMapping.of(node, CURE, STANDS_KEYS);
  const side = mapping?.require('foot', CURE);
  const foot = side && readWord(side, ['left', 'right'] as const);
  const out = mapping?.read('foot-out', (entry) => readFootOut(entry, edges), { twist: 'none' as const });
  return foot && out && { foot, ...out };
}

function readFootOut(node: YamlNode, edges: Job['edges'] | undefined): Omit<Stands, 'foot'> | undefined {
  // Of an edge that could not be read the name is not known.
  const names = edges?.map(({ name }) => name) ?? [];
  const mapping = YamlMapping.of(node, CURE, names.length === 2 ? [...names, ...FOOT_OUT_KEYS] : undefined);
  if (!mapping) return undefined;
  const twist = mapping.read('twist', (entry) => readWord(entry, ['none', 'level-across'] as const), 'none');
  const edge = readSide(mapping, names, 'edges');
  const face = readSide(mapping, ['reference-face', 'other-face'] as const, 'faces');
  if (!twist || edge === 'wrong' || face === 'wrong') return undefined;
  return {
    ...omitUndefined({
      towardsEdge: edge && { edge: edge.name, by: edge.by },
      towardsFace: face && { face: face.name, by: face.by },
    }),
    twist,
  };
}

/** The one side of these that the foot is out towards, if it is. */
function readSide<Name extends string>(mapping: YamlMapping, names: readonly Name[], what: string) {
  const given = names.flatMap((name) => {
    const node = mapping.get(name);
    return node ? [{ name, node }] : [];
  });
  const [first, second] = given;
  if (!first) return undefined;
  if (second) {
    lastOf(given).node.reportAtName(
      'job.one-of',
      `the foot can go toward one of the two ${what} only. Remove the other one.`,
    );
    return 'wrong';
  }
  const by = readAngle(first.node);
  if (by !== undefined && by >= 0 && by <= MAX_END_ANGLE) return { name: first.name, by };
  if (by !== undefined)
    first.node.report('job.stands', `this angle is not possible for a foot. ${ANGLE_CURE}`);
  return 'wrong';
}
