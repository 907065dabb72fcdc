import type { Unit } from '../../units/unit.ts';
import type { Face, Job } from '../job.ts';
import type { JointKind } from '../joints/joint-kind.ts';
import { JOINT_KINDS, JOINT_NAMES, type Joint, type JointKindName } from '../joints/joint-kinds.ts';
import { OTHER_FACE } from '../joints/joint-side.ts';
import { didYouMean } from './did-you-mean.ts';
import { omitUndefined, readName, readWord } from './read-values.ts';
import { type NamedNode, YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

/** Far more than a part has; it bounds the checks of each against all others. */
const MAX_JOINTS = 100;
const MAX_LABEL = 40;

const JOINT_CURE =
  'Write the kind of joint and its sizes, such as "- mortise: {at: 5, out: 1, length: 2, width: 3/8}" or ' +
  '"- hole: {at: 20, out: 1 1/2, diameter: 3/8}".';

/** Other spellings of a kind. */
const BRITISH_NAMES: ReadonlyMap<string, JointKindName> = new Map([['centre-line', 'center-line']]);

/** What else of the job a joint refers to; edges are undefined where they could not be read. */
export interface JointSetting {
  readonly unit: Unit;
  readonly edges: Job['edges'] | undefined;
  readonly hasStands: boolean;
}

/** Joints that cannot be read have their faults already. */
export function readJoints(node: YamlNode, setting: JointSetting): Joint[] | undefined {
  const joints = node.list(JOINT_CURE, MAX_JOINTS)?.map((item) => readJoint(item, setting));
  return joints?.filter((joint) => joint !== undefined);
}

function readJoint(node: YamlNode, setting: JointSetting): Joint | undefined {
  const outer = YamlMapping.of(node, JOINT_CURE);
  const found = outer && findJointKind(outer);
  if (!found) return undefined;
  const { keys, read }: JointKind<object> = JOINT_KINDS[found.name];
  const mapping = YamlMapping.of(found.node, JOINT_CURE, keys);
  const label = mapping?.read('label', (entry) => readName(entry, MAX_LABEL));
  const side = mapping?.read('face', (entry) => readFace(entry, setting));
  const face = side === 'reference-face' ? undefined : side;
  const measures = mapping && read(mapping, setting.unit);
  const level = measures && 'level' in measures ? mapping?.get('level') : undefined;
  if (level && !setting.hasStands)
    level.reportAtName(
      'job.level',
      'the job does not say how the part stands. Describe it under "stands", or use turn with an angle.',
    );
  return (
    measures && ({ kind: found.name, ...measures, key: node.key, ...omitUndefined({ label, face }) } as Joint)
  );
}

function readFace(entry: YamlNode, { edges }: JointSetting): string | undefined {
  // Of an edge that could not be read the name is not known; a part with one edge is checked with its joints.
  if (edges?.length !== 2) return entry.text(FACE_CURE);
  return readWord(entry, [...FACES, ...edges.map(({ name }) => name)]);
}

const FACES: readonly string[] = ['reference-face', OTHER_FACE] satisfies Face[];
const FACE_CURE = 'Write reference-face, other-face or the name of an edge.';

function findJointKind(outer: YamlMapping): NamedNode<JointKindName> | undefined {
  const [first, second] = outer.entries;
  if (!first) return undefined;
  if (second)
    return second.node.reportAtName(
      'job.one-of',
      'this joint has two kinds. Start the second joint on its own line with "- ".',
    );
  const name = JOINT_NAMES.find((each) => each === (BRITISH_NAMES.get(first.name) ?? first.name));
  if (name) return { name, node: first.node };
  const wording = `unknown kind of joint. ${didYouMean(first.name, JOINT_NAMES)}`;
  return first.node.reportAtName('job.unknown-key', wording);
}
