import { type Box, pathBounds, union } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten } from '../../curves/geometry/flatten.ts';
import { type Item, type Stroke, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT } from '../drawing/text-width.ts';
import { PICTURE_LABEL_MM } from '../pictures/picture-frame.ts';
import type { OccupiedSpace } from './free-space.ts';
import { SCREEN_FONT, widthInFont } from './picture-labels.ts';
import { candidatesBeside, type LabelContext, type LabelPlacement, placeLabel } from './place-labels.ts';

/** What is said of a place in a picture, and the ring there; two of a strip's end held between nails. */
export interface RingLabel {
  readonly text: string;
  readonly rings: readonly Stroke[];
}

/** Rings in a picture, each with its label on its own side of the lines where that finds room. */
export function ringLabels(all: readonly RingLabel[], lines: readonly Chord[], room: OccupiedSpace): Item[] {
  const anchors = all.map(({ rings }) => union(rings.map(({ path }) => pathBounds(path))));
  const named: LabelContext = { anchors, lines, drawn: new Set([...room.occupied, ...anchors]) };
  room.occupied.push(...anchors);
  return all.flatMap(({ text, rings }, i): readonly Item[] => {
    const led = placeRingLabel(text, rings, anchors[i]!, named, room);
    if (!led) return rings;
    const { left, right, bottom, top } = led.box;
    const foot = { x: (left + right) / 2, y: (bottom + top - PICTURE_LABEL_MM * CAP_HEIGHT) / 2 };
    return [...rings, ...led.leader, words(text, foot, PICTURE_LABEL_MM, 'middle')];
  });
}

function placeRingLabel(
  text: string,
  rings: readonly Stroke[],
  own: Box,
  named: LabelContext,
  room: OccupiedSpace,
): LabelPlacement | undefined {
  const around = flatten(rings.flatMap(({ path }) => path));
  const spots = candidatesBeside(around, widthInFont(text, SCREEN_FONT), PICTURE_LABEL_MM);
  const take = (mayCrossLines: boolean) =>
    placeLabel(room, named, { anchor: own, competingAnchors: named.anchors, mayCrossLines }, spots);
  return take(false) ?? take(true);
}
