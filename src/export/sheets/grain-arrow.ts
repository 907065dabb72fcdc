import type { Point } from '../../curves/geometry/point.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { type OccupiedSpace, reserveNear } from '../labels/free-space.ts';
import type { SheetContext } from './sheet-context.ts';

const WORD_MM = 3.2;

/** Lengths to try for the grain arrow, mm. */
const ARROW_MM = [60, 40, 25];
const HEAD_MM = 3;
/** White past each tip: a tip on a station line would be read as an arrow to it. */
const PAST_MM = 1.5;

/** The arrow and its word, with white above and below. */
const ARROW_HEIGHT_MM = 2.6 * WORD_MM;

/** A double arrow along the reference line: the way the grain should run. */
export function grainArrow(
  { sheet }: Pick<SheetContext, 'sheet'>,
  room: OccupiedSpace,
  wished: Point,
): Item[] {
  const [cos, sin] = sheet.toSheet;
  for (const length of ARROW_MM) {
    const height = ARROW_HEIGHT_MM;
    const width = length + 2 * PAST_MM;
    const [w, h] = [
      Math.abs(cos) * width + Math.abs(sin) * height,
      Math.abs(sin) * width + Math.abs(cos) * height,
    ];
    const box = reserveNear(room, { x: wished.x - w / 2, y: wished.y - h / 2 }, w, h);
    if (!box) continue;
    const centre = { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 };
    const at = (x: number, y: number): Point => ({
      x: centre.x + cos * x - sin * y,
      y: centre.y + sin * x + cos * y,
    });
    const low = -WORD_MM / 2;
    const end = length / 2;
    const head = (side: 1 | -1) =>
      polyline('rule', [
        at(side * (end - HEAD_MM), low + 1.1),
        at(side * end, low),
        at(side * (end - HEAD_MM), low - 1.1),
      ]);
    const angle = Math.atan2(sin, cos);
    return [
      polyline('rule', [at(-end, low), at(end, low)]),
      head(1),
      head(-1),
      words('grain', at(0, low + 1.2), WORD_MM, 'middle', angle),
    ];
  }
  return [];
}
