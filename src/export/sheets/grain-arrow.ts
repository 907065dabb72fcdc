import { transformPoint } from '../../curves/geometry/affine.ts';
import { direction, type Point, point } from '../../curves/geometry/point.ts';
import type { Sheet } from '../../tiling/layout.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { type Block, centreOf, type OccupiedSpace, placeNear } from '../labels/free-space.ts';
import { NOTE_MM } from './sheet-type.ts';

const WORD_MM = NOTE_MM;
const ARROW_MM = [60, 40, 25];
const HEAD_MM = 3;
/** White past each tip, mm: a tip on a station line would read as an arrow to it. */
const PAST_MM = 1.5;
const HEIGHT_MM = 2.6 * WORD_MM;

/** By the grain on the part, radians from the reference line; where `place` finds room, else anywhere. */
export function grainArrow(
  { sheet, space }: { sheet: Sheet; space: OccupiedSpace },
  grain: number,
  place: (block: Block) => Item[] | undefined = () => undefined,
): Item[] {
  const [a, b, c, d] = sheet.toSheet;
  const along = direction(grain);
  const [x0, y0] = [a * along.x + c * along.y, b * along.x + d * along.y];
  // The word reads from the left, or from below.
  const way = x0 < 0 || (x0 === 0 && y0 < 0) ? -1 : 1;
  const [cos, sin] = [way * x0, way * y0];
  const { x, y } = centreOf(space.area);
  for (const length of ARROW_MM) {
    const block = arrowBlock(length, cos, sin);
    const items =
      place(block) ?? placeNear(space, { x: x - block.width / 2, y: y - block.height / 2 }, block);
    if (items) return items;
  }
  return [];
}

function arrowBlock(length: number, cos: number, sin: number): Block {
  const [along, across] = [length + 2 * PAST_MM, HEIGHT_MM];
  const [low, end] = [-WORD_MM / 2, length / 2];
  return {
    width: Math.abs(cos) * along + Math.abs(sin) * across,
    height: Math.abs(sin) * along + Math.abs(cos) * across,
    draw: (box) => {
      const centre = centreOf(box);
      const at = (x: number, y: number): Point =>
        transformPoint([cos, sin, -sin, cos, centre.x, centre.y], point(x, y));
      const head = (tip: number, back: number) =>
        polyline('rule', [at(back, low + 1.1), at(tip, low), at(back, low - 1.1)]);
      return [
        polyline('rule', [at(-end, low), at(end, low)]),
        head(end, end - HEAD_MM),
        head(-end, HEAD_MM - end),
        words('grain', at(0, low + 1.2), WORD_MM, 'middle', Math.atan2(sin, cos)),
      ];
    },
  };
}
