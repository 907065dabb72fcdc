import { boundsOf } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import { angleFrom, direction, dot, leftNormal, lerp, scale } from '../../curves/geometry/point.ts';
import { finishedLine } from '../../part/part-lines.ts';
import type { Item } from '../drawing/drawing.ts';
import type { Block } from '../labels/free-space.ts';
import { placeLabels } from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, offsetDirection } from './sheet-context.ts';
import { NOTE_MM, typedBlock } from './sheet-type.ts';
import { candidatesAlong } from './station-lines.ts';

/** Type sizes that are tried in turn, mm: read by a maker who stands. */
const SIZES_MM = [8, 6.5, 5];
const LEADER_GAP_MM = 0.8;
/** Shares of what is on the sheet at which to try, from its middle outward. */
const PLACES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];

/** What lies on the left and on the right of the line, on every sheet that it runs over. */
export function sideLabels({ part, at, sheet, space, notes }: LabelledSheet): Item[] {
  const chords = flatten(finishedLine(part.shape))
    .map(({ from, to }) => ({ middle: at(lerp(from, to, 0.5)), along: angleFrom(at(from), at(to)) }))
    .filter(({ middle }) => boxContains(sheet.cell, middle));
  const feet = PLACES.flatMap((share) => chords[Math.floor(share * chords.length)] ?? []);
  const labels = (notes?.sides ?? []).map((text, i) => ({
    anchor: boundsOf(feet.map(({ middle }) => middle)),
    competing: [],
    // A leader may cross the line that the wood springs back to.
    blocks: SIZES_MM.map((size) => ({
      ...typedBlock([{ text, size, bold: true }], 'middle'),
      mayCrossLines: true,
    })),
    candidates: (block: Block) =>
      feet.flatMap(({ middle, along }) =>
        candidatesAlong(block, middle, scale(leftNormal(direction(along)), i === 0 ? 1 : -1), LEADER_GAP_MM),
      ),
  }));
  return feet.length > 0 ? placeLabels(space, labels) : [];
}

/** Says beside the line after springback that nobody cuts it. */
export function referenceCurveLabel({ notes, at, sheet, space, ...context }: LabelledSheet): Item[] {
  if (!notes?.sides) return [];
  const [first] = notes.sides;
  const form = first.startsWith('FORM') ? 1 : -1;
  const chords = flatten(notes.referenceCurve.path)
    .map(({ from, to }) => ({ middle: at(lerp(from, to, 0.5)), along: angleFrom(at(from), at(to)) }))
    .filter(({ middle }) => boxContains(sheet.cell, middle));
  const feet = PLACES.flatMap((share) => chords[Math.floor(share * chords.length)] ?? []);
  if (feet.length === 0) return [];
  const up = offsetDirection({ ...context, notes, at, sheet });
  const label = {
    anchor: boundsOf(feet.map(({ middle }) => middle)),
    competing: [],
    blocks: [typedBlock([{ text: notes.referenceCurve.label, size: NOTE_MM, bold: true }])],
    candidates: (block: Block) =>
      feet.flatMap(({ middle, along }) => {
        const normal = leftNormal(direction(along));
        const way = form * Math.sign(dot(normal, up) || 1);
        return candidatesAlong(block, middle, scale(normal, way), LEADER_GAP_MM);
      }),
  };
  return placeLabels(space, [label]);
}
