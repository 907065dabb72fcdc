import { curvatureComb, type Tooth } from '../../curves/fairness/curvature-comb.ts';
import type { Box } from '../../curves/geometry/bounds.ts';
import { add, direction, leftNormal, type Point, point, scale } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { boxCorners, polyline, type Stroke } from '../drawing/drawing.ts';
import { jointStrokes, type PartView, partStrokes, partView } from '../drawing/part-view.ts';

/** At one scale both ways: `factor` picture mm for a mm of the part. */
export interface PictureView extends PartView {
  readonly factor: number;
}

/** A part seen at a scale (page mm per part mm) and shifted on its page. */
export const pictureView = (part: Part, factor: number, shift: Point): PictureView => ({
  ...partView(part, [factor, 0, 0, factor, shift.x, shift.y]),
  factor,
});

export const pictureLines = (view: PictureView): Stroke[] => [
  ...partStrokes(view, ['finished', 'saw', 'back']),
  ...jointStrokes(view, view.part.joints),
];

export const boardOutline = (board: Box, { at }: PictureView): Stroke =>
  polyline('rule', [...boxCorners(board), point(board.left, board.bottom)].map(at));

export interface DrawnTooth {
  readonly tooth: Tooth;
  readonly foot: Point;
  readonly tip: Point;
}

export const MAX_TOOTH_MM = 22;

/** A comb to each edge that is not straight, all to one scale: the sharpest place has the longest tooth. */
export function drawCombs({ part, at }: PictureView): DrawnTooth[][] {
  const combs = part.edges.map(({ runs }) => curvatureComb(runs));
  const sharpest = Math.max(...combs.flat().map(({ curvature }) => Math.abs(curvature)));
  if (!(sharpest > 0)) return [];
  return combs.map((comb) =>
    comb.map((tooth) => {
      const out = scale(leftNormal(direction(tooth.angle)), (-MAX_TOOTH_MM * tooth.curvature) / sharpest);
      return { tooth, foot: at(tooth), tip: add(at(tooth), out) };
    }),
  );
}
