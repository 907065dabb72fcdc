import { boundsOf } from '../../curves/geometry/bounds.ts';
import { distance, type Point } from '../../curves/geometry/point.ts';
import { type PartEnd, trueShape } from '../../part/ends/end-planes.ts';
import type { Rule } from '../../units/rule.ts';
import { lengthWithoutUnit } from '../drawing/dimensions.ts';
import { polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, LINE_SPACING, textWidth } from '../drawing/text-width.ts';
import { BODY_MM, type TextRow } from './text-columns.ts';

const MAX_WIDTH_MM = 40;
const MAX_HEIGHT_MM = 20;
const WHITE_MM = 1.5;
const LINE_MM = BODY_MM * LINE_SPACING;

/** The sawn end as it looks square on: the marked face below. */
export function trueEndShapeRow(end: PartEnd, thickness: number, rule: Rule): TextRow {
  const corners = trueShape(end, thickness);
  const [a, b, c, d] = corners;
  const box = boundsOf(corners);
  const [wide, high] = [box.right - box.left, box.top - box.bottom];
  const k = Math.min(MAX_WIDTH_MM / wide, MAX_HEIGHT_MM / high);
  const side = (from: Point, to: Point): string => lengthWithoutUnit(distance(from, to), rule);
  const before = side(a, d);
  const indent = textWidth(before, BODY_MM) + WHITE_MM;
  return {
    height: k * high + 2 * LINE_MM + WHITE_MM,
    draw: (x, top) => {
      const place = (at: Point): Point => ({
        x: x + indent + k * (at.x - box.left),
        y: top - LINE_MM - k * (box.top - at.y),
      });
      const middle = (from: Point, to: Point): Point => {
        const [p, q] = [place(from), place(to)];
        return { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 };
      };
      const half = (BODY_MM * CAP_HEIGHT) / 2;
      const [face, back, low, upper] = [middle(a, b), middle(d, c), middle(a, d), middle(b, c)];
      return [
        polyline('rule', corners.map(place), true),
        words(`other face ${side(d, c)}`, { x: back.x, y: back.y + WHITE_MM }, BODY_MM, 'middle'),
        words(`marked face ${side(a, b)}`, { x: face.x, y: face.y - LINE_MM * 0.8 }, BODY_MM, 'middle'),
        words(before, { x: low.x - WHITE_MM, y: low.y - half }, BODY_MM, 'end'),
        words(side(b, c), { x: upper.x + WHITE_MM, y: upper.y - half }, BODY_MM),
      ];
    },
  };
}
