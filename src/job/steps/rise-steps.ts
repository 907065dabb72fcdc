import type { Curve } from '../../curves/curve.ts';
import { bow } from '../../curves/elastica/bow.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { ellipse } from '../../curves/simple/ellipse.ts';
import type { Unit } from '../../units/unit.ts';
import { readLength } from '../parse/read-values.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';
import type { StepKind, StepReading } from './step-kind.ts';

/** Positive: away from the reference line (to the left, going from start to end), mm. */
export interface RiseFields {
  readonly rise: number;
}

/** A curve that its rise over the chord alone makes. */
const riseStep = (
  name: string,
  make: (from: Point, to: Point, rise: number) => Curve,
  sentence: string,
): StepKind<RiseFields> => ({
  keys: ['rise'],
  read: (mapping, unit) => readRise(name, mapping, unit),
  run: (from, { to, rise }) => make(from, to, rise),
  handles: ({ rise }) => [{ what: 'rise', key: 'rise', mm: rise }],
  sentence: () => sentence,
  quick: {
    options: [],
    read: (options, _, unit) => {
      const rise = options.requireLength('rise', unit);
      return rise === undefined ? undefined : { rise };
    },
  },
});

export const bowStep = riseStep(
  'bow',
  bow,
  'the line of a springy strip whose two ends a string draws together.',
);

export const ellipseStep = riseStep('ellipse', ellipse, 'half an ellipse standing on its chord.');

function readRise(name: string, mapping: YamlMapping, unit: Unit): StepReading<RiseFields> | undefined {
  const entry = mapping.require('rise', `Give the ${name} its rise over the chord: rise: 3/4.`);
  const rise = entry && readLength(entry, unit);
  if (!entry || rise === undefined) return undefined;
  if (Math.abs(rise) < JOIN_MM)
    return entry.report('job.zero', 'a rise of 0 leaves no curve. Give another, or a line.');
  return { fields: { rise }, points: [] };
}
