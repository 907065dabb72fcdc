import type { Box } from '../../curves/geometry/bounds.ts';
import { point } from '../../curves/geometry/point.ts';
import { REGISTER_REACH_MM } from '../../tiling/grid/seams.ts';
import type { CheckCross, Sheet } from '../../tiling/layout.ts';
import { circle, cross, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { textWidth } from '../drawing/text-width.ts';
import { type Block, centreOf, placeNear } from '../labels/free-space.ts';
import type { LabelledSheet, SheetContext } from './sheet-context.ts';
import { NOTE_MM } from './sheet-type.ts';

const REGISTER_RADIUS_MM = 3;
const CHECK_ARM_MM = 4;
const CHECK_LETTER_MM = 5;

/** Where this sheet is cut, and where its neighbors come to: each across the whole window. */
export function trimLines({ window, cell, neighbours }: Sheet): Stroke[] {
  const down = (x: number): Stroke => polyline('trim', [point(x, window.bottom), point(x, window.top)]);
  const across = (y: number): Stroke => polyline('trim', [point(window.left, y), point(window.right, y)]);
  return [
    ...(neighbours.left ? [down(cell.left)] : []),
    ...(neighbours.right ? [down(cell.right)] : []),
    ...(neighbours.above ? [across(cell.top)] : []),
    ...(neighbours.below ? [across(cell.bottom)] : []),
  ];
}

export const registerMarks = (context: SheetContext): Stroke[] =>
  context.sheet.marks.flatMap(({ at }) => {
    const centre = context.at(at);
    return [...cross('register', centre, REGISTER_REACH_MM), circle('register', centre, REGISTER_RADIUS_MM)];
  });

export const crossesOn = ({ layout, sheet }: SheetContext): CheckCross[] =>
  layout.crosses.filter((one) => one.sheet === sheet.name);

export const checkCrossMarks = (context: SheetContext): Item[] =>
  crossesOn(context).flatMap(({ letter, at }) => {
    const centre = context.at(at);
    return [
      ...cross('register', centre, CHECK_ARM_MM),
      words(letter, point(centre.x + 1.5, centre.y + 1.5), CHECK_LETTER_MM),
    ];
  });

/** In the overlap beyond each seam, which is cut away or covered. */
export function seamLabels({ sheet, space }: LabelledSheet): Item[] {
  const { window, cell, neighbours } = sheet;
  const seams: [name: string | undefined, overlap: Box, texts: (name: string) => string[]][] = [
    [neighbours.left, { ...cell, left: window.left, right: cell.left }, coveringTexts],
    [neighbours.right, { ...cell, left: cell.right, right: window.right }, coveredTexts],
    [neighbours.above, { ...cell, bottom: cell.top, top: window.top }, coveringTexts],
    [neighbours.below, { ...cell, bottom: window.bottom, top: cell.bottom }, coveredTexts],
  ];
  return seams.flatMap(([name, overlap, texts]) => {
    if (!name) return [];
    for (const text of texts(name)) {
      const items = wordsAlongSeam(overlap, space.occupied, text);
      if (items) return items;
    }
    return [];
  });
}

const coveringTexts = (name: string): string[] => [
  `Cut here. Lay this edge on ${name}.`,
  `Cut. Lay on ${name}.`,
  name,
];
const coveredTexts = (name: string): string[] => [
  `${name} covers this sheet up to here.`,
  `${name} covers this.`,
  name,
];

function wordsAlongSeam(overlap: Box, occupied: Box[], text: string): Item[] | undefined {
  const { x, y } = centreOf(overlap);
  const upright = overlap.top - overlap.bottom > overlap.right - overlap.left;
  const [length, half] = [textWidth(text, NOTE_MM) + 2, NOTE_MM * 0.55];
  const area = upright
    ? { ...overlap, left: x - half, right: x + half }
    : { ...overlap, bottom: y - half, top: y + half };
  const [width, height] = upright ? [2 * half, length] : [length, 2 * half];
  const drop = NOTE_MM * 0.27;
  const draw: Block['draw'] = (box) => {
    const middle = centreOf(box);
    return upright
      ? [words(text, point(middle.x + drop, middle.y), NOTE_MM, 'middle', Math.PI / 2)]
      : [words(text, point(middle.x, middle.y - drop), NOTE_MM, 'middle')];
  };
  return placeNear({ area, occupied }, point(x - width / 2, y - height / 2), { width, height, draw });
}
