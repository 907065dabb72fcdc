import { type Point, point } from '../../curves/geometry/point.ts';
import type { Unit } from '../../units/unit.ts';
import type { Joint, Lean, Recess } from '../job.ts';
import { JOINT_KEYS, JOINT_KINDS, type JointKind } from '../job-keys.ts';
import { didYouMean } from './did-you-mean.ts';
import { omitUndefined, readAngle, readLength, readName, readWord } from './read-values.ts';
import { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

/** Far more joints than a part has; it keeps the checks of each against all others bounded. */
const MAX_JOINTS = 100;
const MAX_LABEL = 40;

const JOINT_CURE =
  'Write a joint as its kind and its measures: "- mortise: {at: 5, out: 1, length: 2, width: 3/8}" or ' +
  '"- hole: {at: 20, out: 1 1/2, diameter: 3/8}".';

/** All the joints of the job; `undefined` if one could not be read. */
export function readJoints(entry: YamlNode, unit: Unit): Joint[] | undefined {
  const joints = entry.list(JOINT_CURE, MAX_JOINTS)?.map((item) => readJoint(item, unit));
  const known = joints?.filter((joint) => joint !== undefined);
  return known?.length === joints?.length ? known : undefined;
}

function readJoint(entry: YamlNode, unit: Unit): Joint | undefined {
  const outer = YamlMapping.of(entry, JOINT_CURE);
  const kind = outer && findJointKind(outer);
  if (!kind) return undefined;
  const table = YamlMapping.of(outer.get(kind)!, JOINT_CURE);
  if (!table) return undefined;
  table.rejectUnknownKeys(JOINT_KEYS[kind]);
  const label = table.get('label') && readName(table.get('label')!, MAX_LABEL);
  const joint = JOINT_READERS[kind](table, unit);
  if (!joint || (table.get('label') && label === undefined)) return undefined;
  return { ...joint, key: entry.key, ...(label !== undefined && { label }) } as Joint;
}

function findJointKind(outer: YamlMapping): JointKind | undefined {
  const [kind, other] = outer.names;
  if (other !== undefined)
    return outer.get(other)!.reportAtName('job.one-of', 'one joint has one kind. Begin another with "- ".');
  if (JOINT_KINDS.includes(kind as JointKind)) return kind as JointKind;
  return outer
    .get(kind!)!
    .reportAtName('job.unknown-key', `unknown kind of joint. ${didYouMean(kind!, JOINT_KINDS)}`);
}

const JOINT_READERS: Readonly<Record<JointKind, (table: YamlMapping, unit: Unit) => object | undefined>> = {
  mortise: (table, unit) => withKind('mortise', readRecess(table, unit)),
  slot: readSlot,
  hole: readHole,
  'centre-line': readCentreLine,
  mark: readMark,
};

const withKind = <K extends JointKind, T extends object>(kind: K, rest: T | undefined) =>
  rest && { kind, ...rest };

/** A length that must stand there. */
function requireLength(table: YamlMapping, name: string, unit: Unit, sign: 'any' | 'positive' = 'positive') {
  const entry = table.require(name, `Give its ${name} as a length: ${LENGTH_MEANINGS[name] ?? ''}.`);
  return entry && readLength(entry, unit, sign);
}

const LENGTH_MEANINGS: Readonly<Record<string, string>> = {
  at: 'the station of its middle, from the reference end',
  out: 'the offset of its middle, from the reference line',
  length: 'over all, along the part',
  width: 'over all, across the part',
  diameter: 'of the bit',
};

/** A length that may be left out. One that cannot be read has its fault already. */
function optionalLength(table: YamlMapping, name: string, unit: Unit, sign: 'any' | 'positive' = 'positive') {
  const entry = table.get(name);
  return entry && readLength(entry, unit, sign);
}

function readMiddle(table: YamlMapping, unit: Unit): Point | undefined {
  const [x, y] = [requireLength(table, 'at', unit, 'any'), requireLength(table, 'out', unit, 'any')];
  return x === undefined || y === undefined ? undefined : point(x, y);
}

function readRecess(table: YamlMapping, unit: Unit): Recess | undefined {
  const at = readMiddle(table, unit);
  const [length, width] = [requireLength(table, 'length', unit), requireLength(table, 'width', unit)];
  const turned = table.get('turn');
  const turn = turned ? readAngle(turned) : 0;
  const rest = omitUndefined({ depth: optionalLength(table, 'depth', unit) });
  if (!at || length === undefined || width === undefined || turn === undefined) return undefined;
  return { at, length, width, turn, ...rest };
}

function readSlot(table: YamlMapping, unit: Unit): object | undefined {
  const slot = readRecess(table, unit);
  if (!slot || slot.length > slot.width) return withKind('slot', slot);
  return table
    .get('length')!
    .report('job.slot', 'a slot with round ends is longer than it is wide. Give another length, or a hole.');
}

function readHole(table: YamlMapping, unit: Unit): object | undefined {
  const at = readMiddle(table, unit);
  const diameter = requireLength(table, 'diameter', unit);
  const rest = omitUndefined({ depth: optionalLength(table, 'depth', unit), lean: readLean(table) });
  return at && diameter !== undefined ? { kind: 'hole', at, diameter, ...rest } : undefined;
}

/** No drill is set up flatter than this to the face. */
const MAX_HOLE_LEAN = (60 * Math.PI) / 180;

function readLean(table: YamlMapping): Lean | undefined {
  const [entry, way] = [table.get('lean'), table.get('toward')];
  if (!entry) {
    if (!table.isMissing('lean')) return undefined;
    const wording = 'a hole without a lean runs nowhere. Give its lean, or take this out.';
    return way?.reportAtName('job.missing', wording);
  }
  const by = readAngle(entry);
  const toward = way ? readWord(way, ['right', 'left', 'out', 'in'] as const) : 'right';
  if (by === undefined || toward === undefined) return undefined;
  if (by > 0 && by <= MAX_HOLE_LEAN) return { by, toward };
  return entry.report(
    'job.lean',
    'a hole leans by more than 0 and by 60 degrees at most. "toward: left, right, out or in" says which way.',
  );
}

function readCentreLine(table: YamlMapping, unit: Unit): object | undefined {
  const by = table.exactlyOne(['at', 'out'], 'Give "at" for a line across the part, "out" for one along it.');
  const length = by && readLength(by.entry, unit);
  if (!by || length === undefined) return undefined;
  return { kind: 'centre-line', line: by.name === 'at' ? { at: length } : { out: length } };
}

function readMark(table: YamlMapping, unit: Unit): object | undefined {
  const at = requireLength(table, 'at', unit, 'any');
  const label = table.require('label', 'Say what the mark is for: label: seat line.');
  const rest = omitUndefined({ out: optionalLength(table, 'out', unit, 'any') });
  return at !== undefined && label ? { kind: 'mark', at, ...rest } : undefined;
}
