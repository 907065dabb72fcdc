import { fairnessOf } from '../../curves/fairness/fairness.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { groupConsecutive } from '../../units/lists.ts';
import { showLength } from '../../units/rule.ts';
import { type Drawing, type Item, polyline } from '../drawing/drawing.ts';
import { pictureLabels } from '../labels/picture-labels.ts';
import { fitStandardScale, framePicture, labelArea, PICTURE_LABEL_MM } from './picture-frame.ts';
import { type DrawnTooth, drawCombs, pictureLines, pictureView } from './picture-view.ts';
import { titledStationAxis } from './station-axis.ts';

const MAX_HEIGHT_MM = 170;
const AXIS_MM = 5 * PICTURE_LABEL_MM;
const LABEL_BAND_MM = 4 * PICTURE_LABEL_MM;
const TEETH_PER_PIECE = 24;

/** The part to look at: the longer a tooth of its curvature comb, the sharper the curve there. */
export function composePicture(part: Part): Drawing {
  const { bounds } = part;
  const { factor, ratio } = fitStandardScale(bounds, MAX_HEIGHT_MM);
  const { below, above } = combReach(part, factor);
  return framePicture(part, {
    bounds,
    factor,
    below: AXIS_MM + below,
    above,
    head: `${ratio} · the curvature comb shows how sharply the edge bends`,
    foot: part.edges.map((edge) => fairnessText(part, edge)),
    draw: (view, { floor, ceiling }) => {
      const combs = drawCombs(view);
      return [
        ...combs.flatMap(combStrokes),
        ...pictureLines(view),
        ...pictureLabels(view, combs, labelArea(floor + AXIS_MM, ceiling)),
        ...titledStationAxis(view, floor + 3 * PICTURE_LABEL_MM),
      ];
    },
  });
}

function combReach(part: Part, factor: number): { below: number; above: number } {
  const { bottom, top } = part.bounds;
  const combs = drawCombs(pictureView(part, factor, { x: 0, y: 0 }));
  const tips = combs.flat().map(({ tip }) => tip.y);
  const reach = (beyond: number): number => Math.max(beyond + 2 * PICTURE_LABEL_MM, LABEL_BAND_MM);
  return {
    below: reach(tips.reduce((most, y) => Math.max(most, bottom * factor - y), 0)),
    above: reach(tips.reduce((most, y) => Math.max(most, y - top * factor), 0)),
  };
}

function fairnessText({ rule }: Part, { name, runs }: PartEdge): string {
  const said = fairnessOf(runs).remarks.map(({ message }) => message((mm) => showLength(mm, rule)));
  return `${name}: ${said.join('; ')}`;
}

/** Teeth, and a line along their tips that breaks where the curvature may jump; none on a straight piece. */
function combStrokes(comb: readonly DrawnTooth[]): Item[] {
  const bent = comb.filter(({ tooth }) => tooth.piece.type !== 'line');
  const pieces = groupConsecutive(bent, ({ tooth }) => tooth.piece);
  const tips = pieces.map(([, teeth]) => teeth.map(({ tip }) => tip));
  const drawn = bent.filter(({ tooth }) => Number.isInteger(tooth.u * TEETH_PER_PIECE));
  return [
    ...drawn.map(({ foot, tip }) => polyline('station', [foot, tip])),
    ...tips.map((line) => polyline('mark', line)),
  ];
}
