import { pathBounds } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten } from '../../curves/geometry/flatten.ts';
import type { Item, Stroke } from '../drawing/drawing.ts';
import { CAP_HEIGHT } from '../drawing/text-width.ts';
import type { OccupiedSpace } from './free-space.ts';
import { candidatesBeside, placeLabels, SCREEN_FONT, textBlock } from './place-labels.ts';

/** Two rings where a nail may stand on either side of a batten; a box along a clamp. */
export interface RingLabel {
  readonly text: string;
  readonly rings: readonly Stroke[];
}

const STYLE = { ...SCREEN_FONT, padding: 0, lineHeight: 1, baseline: (1 + CAP_HEIGHT) / 2 };

/** Each label on its own side of the lines where it finds room there. */
export function ringLabels(all: readonly RingLabel[], lines: readonly Chord[], room: OccupiedSpace): Item[] {
  const named = all.map((one) => {
    const path = one.rings.flatMap((ring) => ring.path);
    return { ...one, path, anchor: pathBounds(path) };
  });
  const anchors = named.map(({ anchor }) => anchor);
  const crossable = new Set([...room.occupied, ...anchors]);
  room.occupied.push(...anchors);
  const space = { ...room, anchors, lines, crossable };
  return named.flatMap(({ text, rings, path, anchor }): readonly Item[] => {
    const block = textBlock([text], STYLE);
    const blocks = [block, { ...block, mayCrossLines: true }];
    const label = { anchor, competing: anchors, blocks, candidates: candidatesBeside(flatten(path)) };
    return [...rings, ...placeLabels(space, [label])];
  });
}
