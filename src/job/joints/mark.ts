import { point } from '../../curves/geometry/point.ts';
import { omitUndefined, readOptionalLength } from '../parse/read-values.ts';
import type { JointKind } from './joint-kind.ts';
import { cross } from './joint-lines.ts';
import { requireLength } from './read-measures.ts';

const ARM_MM = 5;

/** Across the part at a station; a cross where an offset is given too, mm. */
export const mark: JointKind<{ readonly at: number; readonly out?: number }> = {
  keys: ['at', 'out', 'face', 'label'],
  read: (mapping, unit) => {
    const at = requireLength(mapping, 'at', unit, 'any');
    const label = mapping.require('label', 'Give the mark a label, such as "label: seat line".');
    const out = readOptionalLength(mapping, 'out', unit, 'any');
    return at !== undefined && label ? { at, ...omitUndefined({ out }) } : undefined;
  },
  place: ({ at, out }) => ({ at, out }),
  lines: ({ at, out }, { across }) =>
    out === undefined ? [{ style: 'mark', path: [across(at)] }] : cross('mark', point(at, out), ARM_MM, 0),
};
