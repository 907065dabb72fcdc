import { readLength } from '../parse/read-values.ts';
import type { JointKind } from './joint-kind.ts';

/** Across the part at a station, or along it at an offset, mm. */
export const centerLine: JointKind<{
  readonly line: { readonly at: number } | { readonly out: number };
}> = {
  keys: ['at', 'out', 'face', 'label'],
  read: (mapping, unit) => {
    const cure = 'Give "at" for a line across the part, or "out" for a line along it.';
    const given = mapping.exactlyOne(['at', 'out'], cure);
    const length = given && readLength(given.node, unit);
    if (!given || length === undefined) return undefined;
    return { line: given.name === 'at' ? { at: length } : { out: length } };
  },
  place: ({ line }) => line,
  lines: ({ line }, { across, along }) => [
    { style: 'axis', path: ['at' in line ? across(line.at) : along(line.out)] },
  ],
};
