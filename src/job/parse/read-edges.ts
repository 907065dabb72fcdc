import { quoted } from '../../units/quoted.ts';
import type { Unit } from '../../units/unit.ts';
import type { Edge, EdgeStep, Job } from '../job.ts';
import { STEP_KINDS } from '../job-keys.ts';
import { checkShoulder, isShoulderStep } from './check-shoulders.ts';
import { type Coordinate, MAX_PINS, readPoint } from './read-points.ts';
import { readStep } from './read-steps.ts';
import { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

/** Far more steps than an edge of furniture has, and with MAX_PINS it keeps the work on one edge bounded. */
const MAX_STEPS = 200;

/** Letters, digits, spaces, dashes, underscores: safe in a message, on a sheet and in a key. */
const EDGE_NAME = /^[\p{L}\p{N}][\p{L}\p{M}\p{N} _-]{0,39}$/u;

const EDGE_CURE = 'Write an edge as a list: first "- from: [0, 0]", then steps such as "- line: [34, 0]".';

const FROM_CURE = 'An edge starts with "- from: [station, offset]".';

/** Reads the edges of a job; undefined where a mistake was found. */
export function readEdges(entry: YamlNode, unit: Unit): Job['edges'] | undefined {
  const table = YamlMapping.of(entry, 'Write a name for each edge, and under it its list of steps.');
  if (!table) return undefined;
  const [first, second, third] = table.names;
  if (third !== undefined) {
    const wording = `a part has at most two edges. Take this one out, or give it a job of its own.`;
    table.get(third)!.reportAtName('job.too-many', wording);
  }
  const one = first !== undefined && readEdge(first, table.get(first)!, unit);
  if (second === undefined) return one ? [one] : undefined;
  const other = readEdge(second, table.get(second)!, unit);
  return one && other ? [one, other] : undefined;
}

function readEdge(name: string, entry: YamlNode, unit: Unit): Edge | undefined {
  if (!EDGE_NAME.test(name)) {
    const wording = `${quoted(name)} cannot name an edge. Use up to 40 letters, digits, spaces, "-" and "_".`;
    return entry.reportAtName('job.edge-name', wording);
  }
  const [head, ...more] = entry.list(EDGE_CURE, MAX_STEPS + 1) ?? [];
  if (!head) return undefined;
  if (STEP_KINDS.some((kind) => head.hasKey(kind))) {
    readSteps([head, ...more], undefined, unit);
    return head.reportMissing('from', FROM_CURE);
  }
  const from = readFrom(head, unit);
  if (more.length === 0) return entry.report('job.missing', `the edge has no steps. ${EDGE_CURE}`);
  const [first, ...rest] = readSteps(more, from, unit) ?? [];
  const pins = [first, ...rest].reduce((sum, step) => sum + (step ? countPins(step) : 0), 0);
  if (pins > MAX_PINS)
    return entry.report(
      'job.too-many',
      `${pins} nails and points on one edge. ${MAX_PINS} is the most read.`,
    );
  return from && first && { name, from: from.at, steps: [first, ...rest], key: entry.key };
}

/** What a step passes through between its ends. */
function countPins(step: EdgeStep): number {
  if (step.kind === 'spline') return step.through.length;
  return step.kind === 'batten' && 'through' in step.by ? step.by.through.length : 0;
}

function readFrom(entry: YamlNode, unit: Unit): Coordinate | undefined {
  const table = YamlMapping.of(entry, EDGE_CURE);
  table?.rejectUnknownKeys({ known: ['from'] });
  const from = table?.require('from', FROM_CURE);
  return from && readPoint(from, unit);
}

/** All the steps, or `undefined` if one could not be read. */
function readSteps(
  items: readonly YamlNode[],
  from: Coordinate | undefined,
  unit: Unit,
): EdgeStep[] | undefined {
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
