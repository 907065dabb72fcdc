import { type Box, pathBox, unitedBox } from '../../curves/geometry/bounds.ts';
import { type Chord, chordsOf } from '../../curves/geometry/flatten.ts';
import { type Item, type Stroke, words } from '../drawing/drawing.ts';
import { CAPITALS } from '../drawing/text-width.ts';
import { LABEL_MM } from '../pictures/picture-frame.ts';
import type { Room } from './free-space.ts';
import { SCREEN, widthOf } from './picture-labels.ts';
import { type Led, type Named, spotsBeside, takeNamed } from './place-labels.ts';

/** What is said of a place in a picture, and the ring there; two of a strip's end held between nails. */
export interface LabelledRings {
  readonly text: string;
  readonly rings: readonly Stroke[];
}

/** Rings in a picture, each with its label on its own side of the lines where that finds room. */
export function labelledRings(all: readonly LabelledRings[], lines: readonly Chord[], room: Room): Item[] {
  const things = all.map(({ rings }) => unitedBox(rings.map(({ path }) => pathBox(path))));
  const named: Named = { things, lines, drawn: new Set([...room.taken, ...things]) };
  room.taken.push(...things);
  return all.flatMap(({ text, rings }, i): readonly Item[] => {
    const led = placeOf(text, rings, things[i]!, named, room);
    if (!led) return rings;
    const { left, right, bottom, top } = led.box;
    const foot = { x: (left + right) / 2, y: (bottom + top - LABEL_MM * CAPITALS) / 2 };
    return [...rings, ...led.lead, words(text, foot, LABEL_MM, 'middle')];
  });
}

function placeOf(
  text: string,
  rings: readonly Stroke[],
  own: Box,
  named: Named,
  room: Room,
): Led | undefined {
  const around = chordsOf(rings.flatMap(({ path }) => path));
  const spots = spotsBeside(around, widthOf(text, SCREEN), LABEL_MM);
  const take = (across: boolean) => takeNamed(room, named, { own, rivals: named.things, across }, spots);
  return take(false) ?? take(true);
}
