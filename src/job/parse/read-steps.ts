import type { Unit } from '../../units/unit.ts';
import type { StepKind } from '../steps/step-kind.ts';
import { type EdgeStep, STEP_KINDS, STEP_NAMES, type StepKindName, stepKeys } from '../steps/step-kinds.ts';
import { checkStationOrder, snapToShoulder } from './check-station-order.ts';
import { closestName, didYouMean } from './did-you-mean.ts';
import { type Coordinate, readPoint } from './read-points.ts';
import { type NamedNode, YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

/** A step with its end point: the next step starts there. */
export type StepResult = { readonly step?: EdgeStep | undefined; readonly end?: Coordinate | undefined };

const STEP_CURE = `Write a step as its kind and end point, such as "line: [34, 0]". Kinds: ${STEP_NAMES.join(', ')}.`;

/** @param start where the step before ended; undefined if that could not be read */
export function readStep(node: YamlNode, start: Coordinate | undefined, unit: Unit): StepResult {
  const mapping = YamlMapping.of(node, STEP_CURE);
  const found = mapping && findStepKind(mapping);
  if (!found) return {};
  const kind = found.name;
  mapping.rejectUnknownKeys(stepKeys(kind));
  const point = readPoint(found.node, unit);
  const { read }: StepKind<object> = STEP_KINDS[kind];
  const reading = read(mapping, unit);
  const end = point && start ? snapToShoulder(point, start) : point;
  if (!end || !reading) return { end };
  if (start && !checkStationOrder(kind, start, reading.points, end)) return { end };
  return { end, step: { kind, ...reading.fields, to: end.at, key: node.key } as EdgeStep };
}

function findStepKind(mapping: YamlMapping): NamedNode<StepKindName> | undefined {
  if (STEP_NAMES.some((kind) => mapping.get(kind))) return mapping.exactlyOne(STEP_NAMES, '');
  const from = mapping.get('from');
  if (from) {
    const wording = 'only the first item of an edge can be "from". Write a step here, or start another edge.';
    return from.reportAtName('job.from', wording);
  }
  const known = STEP_NAMES.flatMap(stepKeys);
  const odd = mapping.entries.find(({ name }) => !known.includes(name));
  if (!odd) return mapping.node.report('job.missing', `the kind of step is missing. ${STEP_CURE}`);
  const others = mapping.entries.filter(({ name }) => name !== odd.name);
  // "sline" with points to pass means a spline, not a line.
  const fitting = STEP_NAMES.filter((kind) => others.every(({ name }) => stepKeys(kind).includes(name)));
  const meant = closestName(odd.name, fitting) ?? closestName(odd.name, STEP_NAMES);
  const wording = `unknown kind of step. ${didYouMean(odd.name, STEP_NAMES, meant)}`;
  return odd.node.reportAtName('job.unknown-key', wording);
}
