import type { Box } from '../../curves/geometry/bounds.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { REGISTER_REACH_MM } from '../../tiling/grid/seams.ts';
import type { Sheet } from '../../tiling/layout.ts';
import { circle, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { textWidth } from '../drawing/text-width.ts';
import { type OccupiedSpace, reserveNear } from '../labels/free-space.ts';
import { onSheet, type SheetContext } from './sheet-context.ts';

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

export const registerMarks = (view: SheetContext): Stroke[] =>
  view.sheet.marks.flatMap(({ at }) => {
    const centre = onSheet(view, at);
    return [...cross(centre, REGISTER_REACH_MM), circle('register', centre, REGISTER_RADIUS_MM)];
  });

const cross = ({ x, y }: Point, arm: number): Stroke[] => [
  polyline('register', [point(x - arm, y), point(x + arm, y)]),
  polyline('register', [point(x, y - arm), point(x, y + arm)]),
];

export const checkCrossMarks = (view: SheetContext): Item[] =>
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
export function seamLabels(view: SheetContext, taken: Box[]): Item[] {
  const { window, cell, neighbours } = view.sheet;
  const seams: [name: string | undefined, strip: Box, texts: (name: string) => string[]][] = [
    [neighbours.left, { ...cell, left: window.left, right: cell.left }, layOnTexts],
    [neighbours.right, { ...cell, left: cell.right, right: window.right }, liesHereTexts],
    [neighbours.above, { ...cell, bottom: cell.top, top: window.top }, layOnTexts],
    [neighbours.below, { ...cell, bottom: window.bottom, top: cell.bottom }, liesHereTexts],
  ];
  return seams.flatMap(([name, area, texts]) =>
    name ? firstTextThatFits({ area, occupied: taken }, texts(name)) : [],
  );
}

/** Long to short, for seams that the line crosses. */
const layOnTexts = (name: string): string[] => [
  `${name}: cut here, then lay this sheet on ${name}`,
  `${name}: cut, lay on it`,
  name,
];
const liesHereTexts = (name: string): string[] => [
  `${name} lies on this sheet up to here`,
  `${name} up to here`,
  name,
];

function firstTextThatFits(room: OccupiedSpace, texts: readonly string[]): Item[] {
  for (const text of texts) {
    const items = wordsAlongSeam(room, text);
    if (items.length > 0) return items;
  }
  return [];
}

/** Words along the middle of a strip, as near its own middle as they stand free. */
function wordsAlongSeam({ area, occupied }: OccupiedSpace, text: string): Item[] {
  const middle = point((area.left + area.right) / 2, (area.bottom + area.top) / 2);
  const upright = area.top - area.bottom > area.right - area.left;
  const [length, half] = [textWidth(text, SEAM_WORDS_MM) + 2, SEAM_WORDS_MM * 0.55];
  const line: OccupiedSpace = {
    area: upright
      ? { ...area, left: middle.x - half, right: middle.x + half }
      : { ...area, bottom: middle.y - half, top: middle.y + half },
    occupied,
  };
  const [width, height] = upright ? [2 * half, length] : [length, 2 * half];
  const box = reserveNear(line, point(middle.x - width / 2, middle.y - height / 2), width, height);
  if (!box) return [];
  const [x, y] = [(box.left + box.right) / 2, (box.bottom + box.top) / 2];
  const drop = SEAM_WORDS_MM * 0.27;
  return upright
    ? [words(text, point(x + drop, y), SEAM_WORDS_MM, 'middle', Math.PI / 2)]
    : [words(text, point(x, y - drop), SEAM_WORDS_MM, 'middle')];
}
