import { JOIN_MM } from '../curves/tolerance.ts';
import type { Unit } from '../units/unit.ts';
import type { Entry } from './entry.ts';
import type { End, EndPair, Step } from './job.ts';
import { suggest } from './near-name.ts';
import { readPins, readPoint, type SetOut } from './read-points.ts';
import { readLength, readWord } from './read-values.ts';
import { runsForward } from './stations.ts';
import { reportNotYet, Table } from './table.ts';
import { MAX_BATTEN_NAILS, STEP_KEYS, STEP_KINDS, STEP_KINDS_NOT_YET, type StepKind } from './vocabulary.ts';

/** A step as read, with its end point as set out: the next step starts there. */
export interface ReadStep {
  readonly step?: Step | undefined;
  readonly end?: SetOut | undefined;
}

/** What a step needs besides its end point, and the points it passes on the way. */
type Shape = { [Kind in StepKind]: Omit<Extract<Step, { kind: Kind }>, 'to' | 'key'> }[StepKind];
interface ReadShape {
  readonly shape: Shape;
  readonly pins: readonly SetOut[];
}

const A_STEP = `Write a step as its kind and end point, such as "line: [34, 0]". Kinds: ${STEP_KINDS.join(', ')}.`;

/** @param start where the step before ended; unknown if that could not be read */
export function readStep(entry: Entry, start: SetOut | undefined, unit: Unit): ReadStep {
  const table = Table.of(entry, A_STEP);
  const kind = table && kindOf(table);
  if (!kind) return {};
  table.keepTo(STEP_KEYS[kind]);
  const end = readPoint(table.get(kind)!, unit);
  const read = READERS[kind](table, unit);
  if (!end || !read) return { end };
  if (start && !runsForward(start, read.pins, end)) return { end };
  return { end, step: { ...read.shape, to: end.at, key: entry.key } };
}

function kindOf(table: Table): StepKind | undefined {
  const notYet = table.names.find((name) => STEP_KINDS_NOT_YET.includes(name));
  if (notYet !== undefined) return reportNotYet(table.get(notYet)!, notYet);
  const kinds = STEP_KINDS.filter((kind) => table.get(kind));
  if (kinds.length > 0) return table.exactlyOne(STEP_KINDS, '')?.name as StepKind | undefined;
  return reportNoKind(table);
}

function reportNoKind(table: Table): undefined {
  if (table.get('from')) {
    const wording = 'an edge starts once, with its first item. Write a step here, or begin another edge.';
    return table.get('from')!.reportName('job.from', wording);
  }
  const options = Object.values(STEP_KEYS).flatMap(({ known, notYet = [] }) => [...known, ...notYet]);
  const odd = table.names.find((name) => !options.includes(name));
  if (odd === undefined) return table.entry.report('job.missing', `the kind of step is missing. ${A_STEP}`);
  const wording = `unknown kind of step. ${suggest(odd, STEP_KINDS)}`;
  return table.get(odd)!.reportName('job.unknown-key', wording);
}

const READERS: Readonly<Record<StepKind, (table: Table, unit: Unit) => ReadShape | undefined>> = {
  line: () => ({ shape: { kind: 'line' }, pins: [] }),
  arc: readArc,
  batten: readBatten,
  spline: readSpline,
};

function readArc(table: Table, unit: Unit): ReadShape | undefined {
  const by = table.exactlyOne(['through', 'rise', 'radius'], 'Give an arc through, rise or radius.');
  if (!by) return undefined;
  if (by.name === 'through') {
    const through = readPoint(by.entry, unit);
    return through && { shape: { kind: 'arc', by: { through: through.at } }, pins: [through] };
  }
  const length = readLength(by.entry, unit);
  if (length === undefined) return undefined;
  if (Math.abs(length) < JOIN_MM) {
    return by.entry.report('job.zero', `a ${by.name} of 0 leaves no arc. Give another, or a line.`);
  }
  const shape: Shape = { kind: 'arc', by: by.name === 'rise' ? { rise: length } : { radius: length } };
  return { shape, pins: [] };
}

function readBatten(table: Table, unit: Unit): ReadShape | undefined {
  const cure = 'Give a batten the point it passes: through for a nail, apex for its highest point.';
  const by = table.exactlyOne(['through', 'apex'], cure);
  if (!by) return undefined;
  if (by.name === 'apex') {
    const apex = readPoint(by.entry, unit);
    return apex && { shape: { kind: 'batten', by: { apex: apex.at } }, pins: [apex] };
  }
  const pins = readPins(by.entry, unit);
  const [nail, more] = pins ?? [];
  if (more) {
    const wording = `more than ${MAX_BATTEN_NAILS} nail between the ends is not supported yet. Keep one.`;
    return more.entry.report('job.not-yet', wording);
  }
  return nail && { shape: { kind: 'batten', by: { nail: nail.at } }, pins: [nail] };
}

function readSpline(table: Table, unit: Unit): ReadShape | undefined {
  const through = table.require(
    'through',
    'Give a spline the points it passes: through: [[12, 3], [20, 4]].',
  );
  const pins = through && readPins(through, unit);
  const entry = table.get('ends');
  const ends: EndPair | undefined = entry ? readEnds(entry) : ['free', 'free'];
  if (!pins || !ends) return undefined;
  return { shape: { kind: 'spline', through: pins.map((pin) => pin.at), ends }, pins };
}

const SPLINE_ENDS = ['natural', 'held'] as const;

/** One word for both ends, or a pair. */
function readEnds(entry: Entry): EndPair | undefined {
  const [start, end] = entry.pairOrBoth('Write natural or held, or one for each end: [natural, held].') ?? [];
  const first = start && readEnd(start);
  const second = start === end ? first : end && readEnd(end);
  return first && second && [first, second];
}

function readEnd(entry: Entry): End | undefined {
  const word = readWord(entry, SPLINE_ENDS);
  return word && (word === 'natural' ? 'free' : 'held');
}
