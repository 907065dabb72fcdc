import { defaultRule, parseGraduation, type Rule } from '../../units/rule.ts';
import type { Unit } from '../../units/unit.ts';
import type { Job, PairKind, Stock } from '../job.ts';
import { ALLOWANCE_KEYS, JOB_KEYS, STOCK_KEYS } from '../job-keys.ts';
import type { Places } from '../source-positions.ts';
import { Findings } from './diagnostics.ts';
import { readEdges } from './read-edges.ts';
import { readEnds } from './read-ends.ts';
import { readJoints } from './read-joints.ts';
import { given, readCount, readLength, readName, readText, readWord } from './read-values.ts';
import { JOB, readYaml } from './read-yaml.ts';
import { suggestUnit, UNITS } from './unit-word.ts';
import { Table } from './yaml-mapping.ts';
import type { Entry } from './yaml-node.ts';

/** A job and where its keys stand, for what is found out about it later. */
export interface ParsedJob {
  readonly job: Job;
  readonly places: Places;
}

const MAX_NAME = 80;
const MAX_NOTES = 2000;
const MAX_QUANTITY = 1000;
const MAX_LAYERS = 100;

/**
 * Reads the text of a job file.
 *
 * @throws JobFaults every mistake of the file, each once, with its line and column
 */
export function parseJob(text: string): ParsedJob {
  const findings = new Findings();
  const root = readYaml(text, JOB, findings);
  const job = root && readJob(root);
  findings.throwAny();
  if (!job) throw new Error('a job that could not be read must have a fault');
  return { job, places: findings.places };
}

function readJob(root: Entry): Job | undefined {
  const table = Table.of(root, 'Write a job: part, units and edges, each as "name: value".');
  if (!table) return undefined;
  table.keepTo(JOB_KEYS);
  const part = table.require('part', 'Name the part: "part: Bench apron".');
  const units = table.require('units', 'Write "units: in" or "units: mm".');
  const known = units && readWord(units, UNITS, suggestUnit);
  // With the unit unknown the lengths are still looked at; millimetres are the shortest they can be.
  const unit = known ?? 'mm';
  const edges = table.require('edges', 'Set out one edge or two under "edges:".');
  const pair = readOr(undefined, table.get('pair'), (entry) =>
    readWord(entry, ['identical', 'mirrored'] as const),
  );
  const allowance = readOr({}, table.get('allowance'), (entry) => readAllowance(entry, unit));
  const job = {
    part: part && readName(part, MAX_NAME),
    rule: known && readRule(table.get('graduation'), known),
    edges: edges && readEdges(edges, unit),
    quantity: readOr(pair ? 2 : 1, table.get('quantity'), (entry) => readQuantity(entry, pair)),
    joints: readOr([], table.get('joints'), (entry) => readJoints(entry, unit)),
    sawAllowance: allowance && (allowance.saw ?? 0),
    ...given({
      pair,
      ends: readOr(undefined, table.get('ends'), readEnds),
      widthAllowance: allowance?.width,
      stock: readOr(undefined, table.get('stock'), (entry) => readStock(entry, unit)),
      notes: readOr(undefined, table.get('notes'), (entry) => readText(entry, MAX_NOTES)),
    }),
  };
  return isWhole(job) ? job : undefined;
}

/** What `read` makes of an entry, or the value that holds when it is not given. */
function readOr<T>(otherwise: T, entry: Entry | undefined, read: (entry: Entry) => T | undefined) {
  return entry ? read(entry) : otherwise;
}

type Unread<T> = { [K in keyof T]: T[K] | undefined };
const isWhole = (job: Unread<Job>): job is Job => Object.values(job).every((value) => value !== undefined);

function readRule(entry: Entry | undefined, unit: Unit): Rule | undefined {
  if (!entry) return defaultRule(unit);
  const typed = entry.text('Write the finest mark on your rule, such as 1/32.');
  return typed === undefined ? undefined : entry.attempt(() => parseGraduation(typed, unit));
}

function readStock(entry: Entry, unit: Unit): Stock | undefined {
  const table = Table.of(entry, 'Write length, width and thickness, each as "name: value".');
  if (!table) return undefined;
  table.keepTo(STOCK_KEYS);
  const length = (name: string) =>
    readOr(undefined, table.get(name), (value) => readLength(value, unit, 'positive'));
  const layers = readOr(1, table.get('layers'), (value) => readCount(value, MAX_LAYERS));
  const sizes = given({
    species: readOr(undefined, table.get('species'), (value) => readName(value, MAX_NAME)),
    length: length('length'),
    width: length('width'),
    thickness: length('thickness'),
  });
  return layers === undefined ? undefined : { ...sizes, layers };
}

/** Pairs come in twos. */
function readQuantity(entry: Entry, pair: PairKind | undefined): number | undefined {
  const quantity = readCount(entry, MAX_QUANTITY);
  if (quantity === undefined || pair !== 'mirrored' || quantity % 2 === 0) return quantity;
  return entry.report(
    'job.odd-pair',
    `${quantity} parts do not make mirrored pairs. Write an even number, both hands counted.`,
  );
}

function readAllowance(entry: Entry, unit: Unit): { saw?: number; width?: number } | undefined {
  const table = Table.of(entry, 'Write "saw: 1/16 in" under allowance.');
  if (!table) return undefined;
  table.keepTo(ALLOWANCE_KEYS);
  const length = (name: string) =>
    readOr(undefined, table.get(name), (value) => readLength(value, unit, 'not-negative'));
  return given({ saw: length('saw'), width: length('width') });
}
