import { defaultRule, parseGraduation, type Rule } from '../../units/rule.ts';
import type { Unit } from '../../units/unit.ts';
import type { Job, PairKind, Stock } from '../job.ts';
import { Diagnostics, type SourcePositions } from '../job-faults.ts';
import { ALLOWANCE_KEYS, JOB_KEYS, STOCK_KEYS } from '../job-keys.ts';
import { readEdges } from './read-edges.ts';
import { readEnds } from './read-ends.ts';
import { readJoints } from './read-joints.ts';
import { readLaminate } from './read-laminate.ts';
import { readStands } from './read-stands.ts';
import {
  JOB_UNITS,
  omitUndefined,
  readAngle,
  readCount,
  readName,
  readOptionalLength,
  readText,
  readWord,
  suggestUnit,
} from './read-values.ts';
import { JOB_DOCUMENT, readYaml } from './read-yaml.ts';
import { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

const MAX_NAME = 80;
const MAX_NOTES = 2000;
const MAX_QUANTITY = 1000;
const MAX_LAYERS = 100;

/** Reads the text of a job file. @throws JobFaults every mistake, each with its line and column */
export function parseJob(text: string): { readonly job: Job; readonly places: SourcePositions } {
  const findings = new Diagnostics();
  const root = readYaml(text, JOB_DOCUMENT, findings);
  const job = root && readJob(root);
  findings.throwIfAny(job);
  if (!job || !isComplete(job)) throw new Error('a job that could not be read must have a fault');
  return { job, places: findings.positions };
}

function readJob(root: YamlNode): PossiblyUnread<Job> | undefined {
  const cure = 'Write a job: part, units and edges, each as "name: value".';
  const table = YamlMapping.of(root, cure, JOB_KEYS);
  if (!table) return undefined;
  const part = table.require('part', 'Name the part: "part: Bench apron".');
  const units = table.require('units', 'Write "units: in" or "units: mm".');
  const known = units && readWord(units, JOB_UNITS, suggestUnit);
  // Lengths are checked even where the unit is unknown; in millimeters none is too long.
  const unit = known ?? 'mm';
  const edges = table.require('edges', 'Describe one or two edges under "edges:".');
  const drawn = edges && readEdges(edges, unit);
  const stands = table.read('stands', (entry) => readStands(entry, drawn));
  if (stands)
    table
      .get('ends')
      ?.reportAtName('job.one-of', '"stands" already sets both ends. Use stands or ends, not both.');
  const pair = table.read('pair', (entry) => readWord(entry, ['identical', 'mirrored'] as const));
  const allowance = table.read('allowance', (entry) => readAllowance(entry, unit), {});
  return {
    part: part && readName(part, MAX_NAME),
    rule: known && table.read('graduation', (entry) => readRule(entry, known), defaultRule(known)),
    edges: drawn,
    quantity: table.read('quantity', (entry) => readQuantity(entry, pair), pair ? 2 : 1),
    joints: table.read(
      'joints',
      (entry) => readJoints(entry, { unit, edges: drawn, hasStands: !table.isMissing('stands') }),
      [],
    ),
    sawAllowance: allowance && (allowance.saw ?? 0),
    ...omitUndefined({
      pair,
      stands,
      laminate: table.read('laminate', (entry) => readLaminate(entry, unit)),
      ends: table.read('ends', readEnds),
      widthAllowance: allowance?.width,
      stock: table.read('stock', (entry) => readStock(entry, unit)),
      notes: table.read('notes', (entry) => readText(entry, MAX_NOTES)),
    }),
  };
}

export type PossiblyUnread<T> = { [K in keyof T]: T[K] | undefined };
const isComplete = (job: PossiblyUnread<Job>): job is Job =>
  Object.values(job).every((value) => value !== undefined);

function readRule(entry: YamlNode, unit: Unit): Rule | undefined {
  const typed = entry.text('Write the finest mark of your rule, such as 1/32.');
  return typed === undefined ? undefined : entry.attempt(() => parseGraduation(typed, unit));
}

function readStock(entry: YamlNode, unit: Unit): Stock | undefined {
  const cure = 'Write length, width and thickness, each as "name: value".';
  const table = YamlMapping.of(entry, cure, STOCK_KEYS);
  if (!table) return undefined;
  const layers = table.read('layers', (value) => readCount(value, MAX_LAYERS), 1);
  const sizes = omitUndefined({
    species: table.read('species', (value) => readName(value, MAX_NAME)),
    length: readOptionalLength(table, 'length', unit),
    width: readOptionalLength(table, 'width', unit),
    thickness: readOptionalLength(table, 'thickness', unit),
    grain: table.read('grain', (value) => readAngle(value, '90')),
  });
  return layers === undefined ? undefined : { ...sizes, layers };
}

function readQuantity(entry: YamlNode, pair: PairKind | undefined): number | undefined {
  const quantity = readCount(entry, MAX_QUANTITY);
  if (quantity === undefined || pair !== 'mirrored' || quantity % 2 === 0) return quantity;
  const wording = `${quantity} parts do not make mirrored pairs. Use an even quantity, such as ${quantity + 1}.`;
  return entry.report('job.odd-pair', wording);
}

function readAllowance(entry: YamlNode, unit: Unit): { saw?: number; width?: number } | undefined {
  const table = YamlMapping.of(entry, 'Write "saw: 1/16" under allowance.', ALLOWANCE_KEYS);
  if (!table) return undefined;
  const length = (name: string) => readOptionalLength(table, name, unit, 'not-negative');
  return omitUndefined({ saw: length('saw'), width: length('width') });
}
