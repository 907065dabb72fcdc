import { boundsOf } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import { angleFrom, direction, leftNormal, lerp, scale } from '../../curves/geometry/point.ts';
import { finishedLine } from '../../part/part-lines.ts';
import type { Item } from '../drawing/drawing.ts';
import type { Block } from '../labels/free-space.ts';
import { placeLabels, SHEET_LABEL, textBlock } from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet } from './sheet-context.ts';
import { candidatesAlong } from './station-lines.ts';

/** Read from standing height, mm. */
const SIZE_MM = 5;
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
    blocks: [{ ...textBlock([text], { ...SHEET_LABEL, size: SIZE_MM }), mayCrossLines: true }],
    candidates: (block: Block) =>
      feet.flatMap(({ middle, along }) =>
        candidatesAlong(block, middle, scale(leftNormal(direction(along)), i === 0 ? 1 : -1), LEADER_GAP_MM),
      ),
  }));
  return feet.length > 0 ? placeLabels(space, labels) : [];
}
