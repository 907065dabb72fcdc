import type { Curve } from '../../curves/curve.ts';
import { bow } from '../../curves/elastica/bow.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { ellipse } from '../../curves/simple/ellipse.ts';
import { readLength } from '../parse/read-values.ts';
import type { StepKind } from './step-kind.ts';

/** A curve that its rise over the chord alone makes: mm, positive away from the reference line. */
const riseStep = (
  name: string,
  make: (from: Point, to: Point, rise: number) => Curve,
  sentence: string,
): StepKind<{ readonly rise: number }> => ({
  keys: ['rise'],
  read: (mapping, unit) => {
    const entry = mapping.require('rise', `Give the ${name} its rise above the chord, such as "rise: 3/4".`);
    const rise = entry && readLength(entry, unit);
    if (!entry || rise === undefined) return undefined;
    if (Math.abs(rise) < JOIN_MM)
      return entry.report('job.zero', 'a rise of 0 gives no curve. Use another rise, or a line.');
    return { fields: { rise }, points: [] };
  },
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

const BOW_SENTENCE = 'the curve of a batten that is bent like a bow, by a string between its ends.';
export const bowStep = riseStep('bow', bow, BOW_SENTENCE);

export const ellipseStep = riseStep('ellipse', ellipse, 'half an ellipse on its chord.');
