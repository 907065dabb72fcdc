import { fairnessOf } from '../../curves/fairness/fairness.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { showLength } from '../../units/rule.ts';
import { type Drawing, type Item, polyline } from '../drawing/drawing.ts';
import { scaleWords, usualScale } from '../drawing/drawing-scale.ts';
import { landmarkItems } from '../labels/picture-labels.ts';
import {
  floorOver,
  INNER_MM,
  LABEL_MM,
  pictureLines,
  pictureSheet,
  SIDE_MM,
  WIDTH_MM,
} from './picture-frame.ts';
import { partLines } from './picture-lines.ts';
import { type DrawnTooth, drawnCombs, pictureView } from './picture-view.ts';
import { namedStationRule } from './station-axis.ts';

/** A tall part is drawn smaller rather than let the picture grow far higher than it is wide. */
const MOST_HEIGHT_MM = 170;

/**
 * The part to look at: its outline, the curvature along every edge as a comb of teeth square to the
 * line (the longer, the sharper; a fair line has an even comb), nails, apexes, stations, and in words
 * how fair each edge is.
 */
export function composePicture(part: Part): Drawing {
  const { left, bottom: low, right, top: high } = part.bounds;
  const factor = usualScale(
    Math.min(INNER_MM / (right - left), MOST_HEIGHT_MM / Math.max(high - low, Number.EPSILON)),
  );
  const remarks = part.edges.flatMap((edge) => remarkLines(part, edge));
  const ruleAt = floorOver(remarks) + 3 * LABEL_MM;
  const floor = ruleAt + 2 * LABEL_MM;
  const beyond = combsBeyond(part, factor);
  const bottom = floor + beyond.below;
  const ceiling = bottom + (high - low) * factor + beyond.above;
  const shift = { x: (WIDTH_MM - (left + right) * factor) / 2, y: bottom - low * factor };
  const view = pictureView(part, factor, shift);
  const combs = drawnCombs(view);
  const area = { left: SIDE_MM, right: WIDTH_MM - SIDE_MM, bottom: floor, top: ceiling };
  const head = [`${scaleWords(factor)}; the teeth show how sharply the line bends`];
  return pictureSheet({ title: part.name, head, foot: remarks }, ceiling, [
    ...combs.flatMap(combItems),
    ...partLines(view),
    ...landmarkItems(view, combs, area),
    ...namedStationRule(view, ruleAt),
  ]);
}

/** A label under or over a tick, mm: what is kept free beyond the part where no tooth stands. */
const LABELS_MM = 4 * LABEL_MM;

/** How far teeth and labels reach below and above the part as drawn, mm. */
function combsBeyond(part: Part, factor: number): { below: number; above: number } {
  const { bottom, top } = part.bounds;
  const tips = drawnCombs(pictureView(part, factor, { x: 0, y: 0 })).flatMap((comb) =>
    comb.map(({ tip }) => tip.y),
  );
  const reach = (beyond: number): number => Math.max(beyond + 2 * LABEL_MM, LABELS_MM);
  return {
    below: reach(tips.reduce((most, y) => Math.max(most, bottom * factor - y), 0)),
    above: reach(tips.reduce((most, y) => Math.max(most, y - top * factor), 0)),
  };
}

function remarkLines({ rule }: Part, { name, runs }: PartEdge): string[] {
  const said = fairnessOf(runs).remarks.map(({ message }) => message((mm) => showLength(mm, rule)));
  return pictureLines(`${name}: ${said.join('; ')}`);
}

/** Teeth drawn on one piece, its two ends among them. */
const TEETH_DRAWN = 24;

/** Teeth, and a line along their tips that breaks where the curvature may jump; none on a straight piece. */
function combItems(comb: readonly DrawnTooth[]): Item[] {
  const bent = comb.filter(({ tooth }) => tooth.piece.type !== 'line');
  const tips: Point[][] = [];
  bent.forEach(({ tooth, tip }, i) => {
    if (i === 0 || tooth.piece !== bent[i - 1]!.tooth.piece) tips.push([]);
    tips.at(-1)!.push(tip);
  });
  const drawn = bent.filter(({ tooth }) => Number.isInteger(tooth.u * TEETH_DRAWN));
  return [
    ...drawn.map(({ foot, tip }) => polyline('station', [foot, tip])),
    ...tips.map((line) => polyline('mark', line)),
  ];
}
