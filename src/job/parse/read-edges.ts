import { quoted } from '../../units/quoted.ts';
import type { Unit } from '../../units/unit.ts';
import { type Edge, isParallelEdge, type Job } from '../job.ts';
import { FOOT_OUT_KEYS } from '../job-keys.ts';
import { type EdgeStep, STEP_NAMES, stepPointList } from '../steps/step-kinds.ts';
import { checkShoulder, isShoulderStep } from './check-station-order.ts';
import { readParallelEdge } from './read-parallel-edge.ts';
import { type Coordinate, MAX_PINS, readPoint } from './read-points.ts';
import { readStep } from './read-steps.ts';
import { type NamedNode, YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

/** Far more than an edge of furniture has; with MAX_PINS it bounds the work on one edge. */
const MAX_STEPS = 200;

/** Letters, digits, spaces, dashes, underscores: safe in a message, on a sheet and in a key. */
const EDGE_NAME = /^[\p{L}\p{N}][\p{L}\p{M}\p{N} _-]{0,39}$/u;

const EDGE_CURE = 'Start an edge with "- from: [0, 0]". Then add steps such as "- line: [34, 0]".';

const FROM_CURE = 'Start the edge with its first point, such as "- from: [0, 0]".';

/** Undefined where a mistake is reported. */
export function readEdges(node: YamlNode, unit: Unit): Job['edges'] | undefined {
  const mapping = YamlMapping.of(node, 'Write a name for each edge, with its list of steps below the name.');
  if (!mapping) return undefined;
  const [first, second, third] = mapping.entries;
  const wording = 'a part can have two edges at most. Remove this edge, or put it in another job.';
  third?.node.reportAtName('job.too-many', wording);
  const one = first && readEdge(first, unit, second?.name);
  if (!second) return one && [one];
  const other = readEdge(second, unit, first?.name);
  if (one && other && isParallelEdge(one) && isParallelEdge(other)) {
    const wording = 'each edge is parallel to the other. Describe one of them with "- from:" and its steps.';
    return second.node.reportAtName('job.parallel', wording);
  }
  // An edge that can be read has its own mistakes shown beside those of the other.
  const read = one ?? other;
  return one && other ? [one, other] : read && [read];
}

function readEdge({ name, node }: NamedNode, unit: Unit, other: string | undefined): Edge | undefined {
  if (!EDGE_NAME.test(name)) {
    const wording = `${quoted(name)} cannot be the name of an edge. Use up to 40 letters, digits, spaces, "-" and "_".`;
    return node.reportAtName('job.edge-name', wording);
  }
  if (FOOT_OUT_KEYS.includes(name)) {
    const wording = `${quoted(name)} cannot be the name of an edge, because it is a key of "stands". Choose another name.`;
    return node.reportAtName('job.edge-name', wording);
  }
  if (node.hasKey('parallel') || node.hasKey('by')) return readParallelEdge(name, node, unit, other);
  const [head, ...more] = node.list(EDGE_CURE, MAX_STEPS + 1) ?? [];
  if (!head) return undefined;
  if (STEP_NAMES.some((kind) => head.hasKey(kind))) {
    readSteps([head, ...more], undefined, unit);
    return head.reportMissing('from', FROM_CURE);
  }
  const from = readFrom(head, unit);
  if (more.length === 0) return node.report('job.missing', `the edge has no steps. ${EDGE_CURE}`);
  const [first, ...rest] = readSteps(more, from, unit) ?? [];
  const pins = [first, ...rest].reduce((sum, step) => sum + (step ? countPoints(step) : 0), 0);
  if (pins > MAX_PINS)
    return node.report('job.too-many', `this edge has ${pins} nails and points. Use ${MAX_PINS} or fewer.`);
  return from && first && { name, from: from.at, steps: [first, ...rest], key: node.key };
}

const countPoints = (step: EdgeStep): number => stepPointList(step)?.points.length ?? 0;

function readFrom(node: YamlNode, unit: Unit): Coordinate | undefined {
  const from = YamlMapping.of(node, EDGE_CURE, ['from'])?.require('from', FROM_CURE);
  return from && readPoint(from, unit);
}

function readSteps(items: readonly YamlNode[], from: Coordinate | undefined, unit: Unit) {
  const steps: EdgeStep[] = [];
  let start = from;
  let afterShoulder = false;
  for (const [i, item] of items.entries()) {
    const { step, end } = readStep(item, start, unit);
    const shoulder = step && start && end && isShoulderStep({ start, end }) ? { start, end } : undefined;
    const along = { isFirst: i === 0, isLast: i === items.length - 1, afterShoulder };
    if (step && (!shoulder || checkShoulder(shoulder, along))) steps.push(step);
    [start, afterShoulder] = [end, shoulder !== undefined];
  }
  return steps.length === items.length ? steps : undefined;
}
