import type { Point } from '../../curves/geometry/point.ts';
import { spline } from '../../curves/simple/spline.ts';
import { readPoints } from '../parse/read-points.ts';
import { type EndConditions, readEnds } from './end-conditions.ts';
import { pointHandles, type StepKind } from './step-kind.ts';

export type SplineFields = { readonly through: readonly Point[]; readonly ends: EndConditions };

const END_WORDS = ['natural', 'held'] as const;

export const splineStep: StepKind<SplineFields> = {
  keys: ['through', 'ends'],
  read: (mapping, unit) => {
    const cure = 'Give the points of the spline, such as "through: [[12, 3], [20, 4]]".';
    const through = mapping.require('through', cure);
    const points = through && readPoints(through, unit);
    const ends = readEnds(mapping, END_WORDS);
    return points && ends && { fields: { through: points.map(({ at }) => at), ends }, points };
  },
  run: (from, { through, to }, { start, end }) =>
    spline([from, ...through, to], start === 'free' ? 'natural' : start, end === 'free' ? 'natural' : end),
  ends: ({ ends }) => ends,
  handles: ({ through }) => pointHandles('point', through),
  pointList: ({ through }) => ({ what: 'point', points: through }),
  sentence: () =>
    'a smooth drafting curve through the given points. It is close to the curve of a batten only where it is shallow.',
  quick: {
    options: ['nail', 'ends'],
    read: (options, chord, unit) => {
      const pin = options.readPin(chord, unit);
      const ends = options.readEnds(END_WORDS);
      return pin && ends && { through: [pin], ends };
    },
  },
};
