import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { Unit } from '../../units/unit.ts';
import type { BattenInput, EdgeStep, EndCondition, EndConditions, TaperInput } from '../job.ts';
import { STEP_KEYS, STEP_KINDS, STRIP_KEYS, type StepKind } from '../job-keys.ts';
import { snapToShoulder } from './check-shoulders.ts';
import { checkStationOrder } from './check-station-order.ts';
import { closestName, didYouMean } from './did-you-mean.ts';
import { type Coordinate, readPoint, readPoints } from './read-points.ts';
import { readLength, readWord } from './read-values.ts';
import { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

/** A step as read, with its end point as set out: the next step starts there. */
export interface StepResult {
  readonly step?: EdgeStep | undefined;
  readonly end?: Coordinate | undefined;
}

/** What a step needs besides its end point, and the points it passes on the way. */
type StepFields = { [Kind in StepKind]: Omit<Extract<EdgeStep, { kind: Kind }>, 'to' | 'key'> }[StepKind];
interface StepReading {
  readonly shape: StepFields;
  readonly pins: readonly Coordinate[];
}

const STEP_CURE = `Write a step as its kind and end point, such as "line: [34, 0]". Kinds: ${STEP_KINDS.join(', ')}.`;

/** @param start where the step before ended; unknown if that could not be read */
export function readStep(entry: YamlNode, start: Coordinate | undefined, unit: Unit): StepResult {
  const table = YamlMapping.of(entry, STEP_CURE);
  const kind = table && findStepKind(table);
  if (!kind) return {};
  table.rejectUnknownKeys(STEP_KEYS[kind]);
  const point = readPoint(table.get(kind)!, unit);
  const read = STEP_READERS[kind](table, unit);
  const end = point && start ? snapToShoulder(point, start) : point;
  if (!end || !read) return { end };
  if (start && !checkStationOrder(kind, start, read.pins, end)) return { end };
  return { end, step: { ...read.shape, to: end.at, key: entry.key } };
}

function findStepKind(table: YamlMapping): StepKind | undefined {
  const kinds = STEP_KINDS.filter((kind) => table.get(kind));
  if (kinds.length > 0) return table.exactlyOne(STEP_KINDS, '')?.name as StepKind | undefined;
  return reportNoKind(table);
}

function reportNoKind(table: YamlMapping): undefined {
  if (table.get('from')) {
    const wording = 'an edge starts once, with its first item. Write a step here, or begin another edge.';
    return table.get('from')!.reportAtName('job.from', wording);
  }
  const options = Object.values(STEP_KEYS).flatMap(({ known }) => known);
  const odd = table.names.find((name) => !options.includes(name));
  if (odd === undefined)
    return table.entry.report('job.missing', `the kind of step is missing. ${STEP_CURE}`);
  const others = table.names.filter((name) => name !== odd);
  // "sline" with points to pass is no line.
  const fitting = STEP_KINDS.filter((kind) => others.every((name) => STEP_KEYS[kind].known.includes(name)));
  const meant = closestName(odd, fitting) ?? closestName(odd, STEP_KINDS);
  const wording = `unknown kind of step. ${didYouMean(odd, STEP_KINDS, meant)}`;
  return table.get(odd)!.reportAtName('job.unknown-key', wording);
}

const STEP_READERS: Readonly<Record<StepKind, (table: YamlMapping, unit: Unit) => StepReading | undefined>> =
  {
    line: () => ({ shape: { kind: 'line' }, pins: [] }),
    arc: readArc,
    batten: readBatten,
    bow: (table, unit) => readRiseCurve('bow', table, unit),
    ellipse: (table, unit) => readRiseCurve('ellipse', table, unit),
    spline: readSpline,
  };

function readArc(table: YamlMapping, unit: Unit): StepReading | undefined {
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
  const shape: StepFields = { kind: 'arc', by: by.name === 'rise' ? { rise: length } : { radius: length } };
  return { shape, pins: [] };
}

function readBatten(table: YamlMapping, unit: Unit): StepReading | undefined {
  const passed = readBattenBy(table, unit);
  const ends = readEnds(table, BATTEN_END_WORDS);
  const strip = table.get('strip');
  const taper = strip && readTaper(strip, unit);
  if (!passed || !ends || (strip && !taper)) return undefined;
  const shape: StepFields = { kind: 'batten', by: passed.by, ends, ...(taper && { strip: taper }) };
  return { shape, pins: passed.pins };
}

function readBattenBy(
  table: YamlMapping,
  unit: Unit,
): { by: BattenInput; pins: readonly Coordinate[] } | undefined {
  const cure = 'Give a batten the points it passes: through for nails, apex for its highest point.';
  const by = table.exactlyOne(['through', 'apex'], cure);
  if (!by) return undefined;
  if (by.name === 'apex') {
    const apex = readPoint(by.entry, unit);
    return apex && { by: { apex: apex.at }, pins: [apex] };
  }
  const pins = readPoints(by.entry, unit);
  if (!pins) return undefined;
  const [first, ...more] = pins.map(({ at }) => at);
  if (!first) return by.entry.report('job.missing', `no nail is given. ${cure}`);
  return { by: { through: [first, ...more] }, pins };
}

const TAPER_CURE =
  'Write a tapered strip by its thickness at the start and at the end: {from: 1/4, to: 1/8}.';

function readTaper(entry: YamlNode, unit: Unit): TaperInput | undefined {
  const table = YamlMapping.of(entry, TAPER_CURE);
  table?.rejectUnknownKeys(STRIP_KEYS);
  const [from, to] = (['from', 'to'] as const).map((name) => {
    const end = table?.require(name, TAPER_CURE);
    return end && readLength(end, unit, 'positive');
  });
  return from === undefined || to === undefined ? undefined : { from, to };
}

function readRiseCurve(kind: 'bow' | 'ellipse', table: YamlMapping, unit: Unit): StepReading | undefined {
  const entry = table.require('rise', `Give the ${kind} its rise over the chord: rise: 3/4.`);
  const rise = entry && readLength(entry, unit);
  if (!entry || rise === undefined) return undefined;
  if (Math.abs(rise) < JOIN_MM)
    return entry.report('job.zero', 'a rise of 0 leaves no curve. Give another, or a line.');
  return { shape: { kind, rise }, pins: [] };
}

function readSpline(table: YamlMapping, unit: Unit): StepReading | undefined {
  const through = table.require(
    'through',
    'Give a spline the points it passes: through: [[12, 3], [20, 4]].',
  );
  const pins = through && readPoints(through, unit);
  const ends = readEnds(table, SPLINE_END_WORDS);
  if (!pins || !ends) return undefined;
  return { shape: { kind: 'spline', through: pins.map((pin) => pin.at), ends }, pins };
}

/** What a kind of run calls an end that nothing turns. */
type FreeEndWord = 'free' | 'natural';
const BATTEN_END_WORDS = ['free', 'held'] as const;
const SPLINE_END_WORDS = ['natural', 'held'] as const;

/** One word for both ends, or a pair; both free where nothing is written. */
function readEnds(table: YamlMapping, words: readonly [FreeEndWord, 'held']): EndConditions | undefined {
  const entry = table.get('ends');
  if (!entry) return ['free', 'free'];
  const [free] = words;
  const [start, end] = entry.pairOrBoth(`Write ${free} or held, or one for each end: [held, ${free}].`) ?? [];
  const first = start && readEnd(start, words);
  const second = start === end ? first : end && readEnd(end, words);
  return first && second && [first, second];
}

function readEnd(entry: YamlNode, words: readonly [FreeEndWord, 'held']): EndCondition | undefined {
  const word = readWord(entry, words);
  return word && (word === 'held' ? 'held' : 'free');
}
