import { invert, transformPoint } from '../../curves/geometry/affine.ts';
import { type Box, boundsOf, inflate, pathBounds } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import {
  angleFrom,
  direction,
  distance,
  dot,
  leftNormal,
  lerp,
  type Point,
  scale,
} from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { PartEdge } from '../../part/part.ts';
import { patternTitle } from '../cover/pair-words.ts';
import type { Item } from '../drawing/drawing.ts';
import { type Block, candidateBoxes, centreOf, isFree, squaredDistance } from '../labels/free-space.ts';
import { type Label, placeLabels } from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, offsetDirection } from './sheet-context.ts';
import { NOTE_MM, type TypedLine, typedBlock } from './sheet-type.ts';
import { candidatesAlong } from './station-lines.ts';

const WASTE_MM = [7.5, 6, 4.5];
const REFERENCE_MM = [4.5, NOTE_MM];
const GAP_MM = 0.8;
/** Shares of what is on the sheet at which to try, from its middle outward. */
const PLACES = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];
/** How finely an edge and the wood are looked through, mm. */
const STEP_MM = 5;

/** Names the side that is sawn off along each edge, and the reference edge. */
export function wasteLabels(sheet: LabelledSheet): Item[] {
  // A laminated part is not sawn along its edges, and the sides of a form have names of their own.
  if (sheet.part.shape.type === 'line' || sheet.part.laminate || sheet.notes?.sides) return [];
  const waste = sheet.notes?.waste === 'inside' ? -1 : 1;
  return sheet.part.edges.flatMap((edge) => {
    const isReference = isReferenceEdge(edge);
    const sizes = isReference ? REFERENCE_MM : WASTE_MM;
    const text = isReference ? 'REFERENCE EDGE' : 'WASTE';
    const feet = feetOn(sheet, edge);
    if (feet.length === 0) return [];
    const label: Label = {
      anchor: boundsOf(feet.map(({ at }) => at)),
      competing: [],
      withoutLeader: true,
      blocks: sizes.map((size) => typedBlock([{ text, size, bold: true }])),
      candidates: (block) =>
        feet.flatMap(({ at, outward }) =>
          candidatesAlong(block, at, scale(outward, waste), sheet.part.sawAllowance + GAP_MM),
        ),
    };
    return placeLabels(sheet.space, [label]);
  });
}

interface Foot {
  readonly at: Point;
  readonly outward: Point;
}

function feetOn(sheet: LabelledSheet, edge: PartEdge): Foot[] {
  const up = offsetDirection(sheet);
  const found = flatten(edge.path, STEP_MM).flatMap(({ from, to }): Foot[] => {
    const normal = leftNormal(direction(angleFrom(sheet.at(from), sheet.at(to))));
    const wood = Math.sign(dot(normal, up)) * (edge.woodIsAbove ? 1 : -1);
    const steps = Math.ceil(distance(from, to) / STEP_MM);
    return Array.from({ length: steps }, (_, i) => sheet.at(lerp(from, to, (i + 0.5) / steps)))
      .filter((at) => boxContains(sheet.sheet.cell, at))
      .map((at) => ({ at, outward: scale(normal, -wood) }));
  });
  return PLACES.flatMap((share) => found[Math.floor(share * found.length)] ?? []);
}

const isReferenceEdge = ({ path }: PartEdge): boolean => {
  const { bottom, top } = pathBounds(path);
  return Math.max(-bottom, top) < JOIN_MM;
};

/** White around a name in the wood, so that no figure reads as a part of it, mm. */
const WHITE_MM = 1.5;
const WOOD_NAME_MM = [5.8, 4.8, NOTE_MM];

/** On the wood: what it is, and which face is up. */
export function woodLabel(sheet: LabelledSheet): Item[] {
  const { part, layout } = sheet;
  if (sheet.notes || part.shape.type === 'line') return [];
  const small = (text: string): TypedLine => ({ text, size: NOTE_MM });
  const name = patternTitle(part, layout);
  const blocks = [
    ...WOOD_NAME_MM.map((size) => [{ text: name, size }, small(`reference face · code ${layout.code}`)]),
    [small('reference face')],
    [{ text: 'WOOD', size: NOTE_MM, bold: true }],
  ].map((lines) => typedBlock(lines, 'middle'));
  return placeInWood(sheet, blocks) ?? [];
}

/** In the wood, as near the middle of the sheet as there is room. */
export function placeInWood(sheet: LabelledSheet, blocks: readonly Block[]): Item[] | undefined {
  const toPart = invert(sheet.sheet.toSheet);
  const { space } = sheet;
  for (const block of blocks) {
    const middle = centreOf(space.area);
    const wished = { x: middle.x - block.width / 2, y: middle.y - block.height / 2 };
    const [wide, high] = [block.width + 2 * WHITE_MM, block.height + 2 * WHITE_MM];
    let [best, nearest]: [Box | undefined, number] = [undefined, Number.POSITIVE_INFINITY];
    for (const box of candidateBoxes(space, wide, high, STEP_MM)) {
      const squared = squaredDistance(wished, box);
      if (squared >= nearest || !isFree(space, box)) continue;
      if (sheet.isInWood(transformPoint(toPart, centreOf(box)))) [best, nearest] = [box, squared];
    }
    if (!best) continue;
    space.occupied.push(best);
    return block.draw(inflate(best, -WHITE_MM));
  }
  return undefined;
}
