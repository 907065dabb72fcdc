import type { Box } from '../curves/curve.ts';
import { type Point, point } from '../curves/point.ts';
import type { Sheet } from '../tiling/layout.ts';
import { REGISTER_REACH_MM } from '../tiling/seams.ts';
import { circle, type Item, polyline, type Stroke, words } from './drawing.ts';
import { type Room, takeNear } from './place.ts';
import { onSheet, type SheetView } from './sheet-view.ts';
import { textWidth } from './type.ts';

/** The circle of a register mark, mm: its arms stand out far enough to be set one upon another. */
const REGISTER_RADIUS_MM = 3;
const CHECK_ARM_MM = 4;
const CHECK_LETTER_MM = 5;
const SEAM_WORDS_MM = 3.2;

/** Where this sheet is cut, and where its neighbours will lie: each across the whole window. */
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

export const registerMarks = (view: SheetView): Stroke[] =>
  view.sheet.marks.flatMap(({ at }) => {
    const centre = onSheet(view, at);
    return [...cross(centre, REGISTER_REACH_MM), circle('register', centre, REGISTER_RADIUS_MM)];
  });

const cross = ({ x, y }: Point, arm: number): Stroke[] => [
  polyline('register', [point(x - arm, y), point(x + arm, y)]),
  polyline('register', [point(x, y - arm), point(x, y + arm)]),
];

export const checkCrosses = (view: SheetView): Item[] =>
  view.layout.crosses
    .filter(({ sheet }) => sheet === view.sheet.name)
    .flatMap(({ letter, at }) => {
      const centre = onSheet(view, at);
      return [
        ...cross(centre, CHECK_ARM_MM),
        words(letter, point(centre.x + 1.5, centre.y + 1.5), CHECK_LETTER_MM),
      ];
    });

/** What to do at each seam, in the strip beyond it that is cut away or covered. */
export function seamWords(view: SheetView, taken: Box[]): Item[] {
  const { window, cell, neighbours } = view.sheet;
  const seams: [name: string | undefined, strip: Box, text: (name: string) => string][] = [
    [neighbours.left, { ...cell, left: window.left, right: cell.left }, layOn],
    [neighbours.right, { ...cell, left: cell.right, right: window.right }, liesHere],
    [neighbours.above, { ...cell, bottom: cell.top, top: window.top }, layOn],
    [neighbours.below, { ...cell, bottom: window.bottom, top: cell.bottom }, liesHere],
  ];
  return seams.flatMap(([name, area, text]) => (name ? wordsIn({ area, taken }, text(name)) : []));
}

const layOn = (name: string): string => `${name}: cut here, then lay this sheet on ${name}`;
const liesHere = (name: string): string => `${name} lies on this sheet up to here`;

function wordsIn(room: Room, text: string): Item[] {
  const { left, right, bottom, top } = room.area;
  const upright = top - bottom > right - left;
  const [length, height] = [textWidth(text, SEAM_WORDS_MM) + 2, SEAM_WORDS_MM * 1.1];
  const [width, tall] = upright ? [height, length] : [length, height];
  const middle = point((left + right - width) / 2, (bottom + top - tall) / 2);
  const box = takeNear(room, middle, width, tall);
  if (!box) return [];
  const centre = boxCentre(box);
  const drop = SEAM_WORDS_MM * 0.27;
  return upright
    ? [words(text, point(centre.x + drop, centre.y), SEAM_WORDS_MM, 'middle', Math.PI / 2)]
    : [words(text, point(centre.x, centre.y - drop), SEAM_WORDS_MM, 'middle')];
}

const boxCentre = ({ left, right, bottom, top }: Box): Point => point((left + right) / 2, (bottom + top) / 2);
