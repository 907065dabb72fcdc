import { fairnessOf } from '../../curves/fairness/fairness.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { showLength } from '../../units/rule.ts';
import { type Drawing, type Item, polyline } from '../drawing/drawing.ts';
import { scaleRatio, standardScale } from '../drawing/drawing-scale.ts';
import { pictureLabels } from '../labels/picture-labels.ts';
import {
  footTop,
  framePicture,
  PICTURE_INNER_MM,
  PICTURE_LABEL_MM,
  PICTURE_MARGIN_MM,
  PICTURE_WIDTH_MM,
  wrapPictureText,
} from './picture-frame.ts';
import { pictureLines } from './picture-lines.ts';
import { type DrawnTooth, drawCombs, pictureView } from './picture-view.ts';
import { titledStationAxis } from './station-axis.ts';

/** A tall part is drawn smaller rather than let the picture grow far higher than it is wide. */
const MAX_HEIGHT_MM = 170;

/**
 * The part to look at: its outline, the curvature along every edge as a comb of teeth square to the
 * line (the longer, the sharper; a fair line has an even comb), nails, apexes, stations, and in words
 * how fair each edge is.
 */
export function composePicture(part: Part): Drawing {
  const { left, bottom: low, right, top: high } = part.bounds;
  const factor = standardScale(
    Math.min(PICTURE_INNER_MM / (right - left), MAX_HEIGHT_MM / Math.max(high - low, Number.EPSILON)),
  );
  const remarks = part.edges.flatMap((edge) => fairnessLines(part, edge));
  const ruleAt = footTop(remarks) + 3 * PICTURE_LABEL_MM;
  const floor = ruleAt + 2 * PICTURE_LABEL_MM;
  const beyond = combReach(part, factor);
  const bottom = floor + beyond.below;
  const ceiling = bottom + (high - low) * factor + beyond.above;
  const shift = { x: (PICTURE_WIDTH_MM - (left + right) * factor) / 2, y: bottom - low * factor };
  const view = pictureView(part, factor, shift);
  const combs = drawCombs(view);
  const area = {
    left: PICTURE_MARGIN_MM,
    right: PICTURE_WIDTH_MM - PICTURE_MARGIN_MM,
    bottom: floor,
    top: ceiling,
  };
  const head = [`${scaleRatio(factor)}; the teeth show how sharply the line bends`];
  return framePicture({ title: part.name, head, foot: remarks }, ceiling, [
    ...combs.flatMap(combStrokes),
    ...pictureLines(view),
    ...pictureLabels(view, combs, area),
    ...titledStationAxis(view, ruleAt),
  ]);
}

/** A label under or over a tick, mm: what is kept free beyond the part where no tooth stands. */
const LABEL_BAND_MM = 4 * PICTURE_LABEL_MM;

/** How far teeth and labels reach below and above the part as drawn, mm. */
function combReach(part: Part, factor: number): { below: number; above: number } {
  const { bottom, top } = part.bounds;
  const tips = drawCombs(pictureView(part, factor, { x: 0, y: 0 })).flatMap((comb) =>
    comb.map(({ tip }) => tip.y),
  );
  const reach = (beyond: number): number => Math.max(beyond + 2 * PICTURE_LABEL_MM, LABEL_BAND_MM);
  return {
    below: reach(tips.reduce((most, y) => Math.max(most, bottom * factor - y), 0)),
    above: reach(tips.reduce((most, y) => Math.max(most, y - top * factor), 0)),
  };
}

function fairnessLines({ rule }: Part, { name, runs }: PartEdge): string[] {
  const said = fairnessOf(runs).remarks.map(({ message }) => message((mm) => showLength(mm, rule)));
  return wrapPictureText(`${name}: ${said.join('; ')}`);
}

/** Teeth drawn on one piece, its two ends among them. */
const TEETH_PER_PIECE = 24;

/** Teeth, and a line along their tips that breaks where the curvature may jump; none on a straight piece. */
function combStrokes(comb: readonly DrawnTooth[]): Item[] {
  const bent = comb.filter(({ tooth }) => tooth.piece.type !== 'line');
  const tips: Point[][] = [];
  bent.forEach(({ tooth, tip }, i) => {
    if (i === 0 || tooth.piece !== bent[i - 1]!.tooth.piece) tips.push([]);
    tips.at(-1)!.push(tip);
  });
  const drawn = bent.filter(({ tooth }) => Number.isInteger(tooth.u * TEETH_PER_PIECE));
  return [
    ...drawn.map(({ foot, tip }) => polyline('station', [foot, tip])),
    ...tips.map((line) => polyline('mark', line)),
  ];
}
