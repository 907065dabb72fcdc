import type { Deviation } from '../../check/check-edge.ts';
import { type Box, boxesOverlap } from '../../curves/geometry/bounds.ts';
import { segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { typesetFractions } from '../../units/typeset.ts';
import { type Item, words } from '../drawing/drawing.ts';
import { SCREEN_FONT, widthInFont } from './place-labels.ts';

const LABEL_MM = SCREEN_FONT.size;

type ReadingAtTip = Deviation & { readonly tip: Point };

/** Beyond the tips outside the tolerance (mm), the worst first: "1/16 proud", or the bare length. */
export function deviationLabels(
  readings: readonly Deviation[],
  tips: readonly Point[],
  tolerance: number,
  rule: Rule,
): Item[] {
  const taken: Box[] = [];
  const line = tips.slice(1).map((to, i) => ({ from: tips[i]!, to }));
  const isFree = (box: Box): boolean =>
    !taken.some((other) => boxesOverlap(box, other)) &&
    !line.some((chord) => segmentIntersectsBox(chord, box));
  return readings
    .map((each, i): ReadingAtTip => ({ ...each, tip: tips[i]! }))
    .filter(({ deviation }) => Math.abs(deviation) > tolerance)
    .toSorted((a, b) => Math.abs(b.deviation) - Math.abs(a.deviation))
    .flatMap((each, rank): Item[] => {
      const wished = labelCandidates(each, rank === 0, rule);
      const found = wished.find(({ box }) => isFree(box)) ?? (rank === 0 ? wished[0] : undefined);
      if (!found) return [];
      taken.push(found.box);
      return [words(found.text, found.at, LABEL_MM, 'middle')];
    });
}

/** Over the tip, or to its right or left, by halves of the label's width. */
const SIDEWAYS_STEPS = [0, 1, -1];

function labelCandidates({ tip, ...each }: ReadingAtTip, inFull: boolean, rule: Rule) {
  const full = deviationText(each, rule);
  const texts = inFull ? [full] : [full, full.slice(0, full.lastIndexOf(' '))];
  const spot = pointBeyondTip(tip, each.deviation);
  return SIDEWAYS_STEPS.flatMap((aside) =>
    texts.map((text) => {
      const at = { x: spot.x + (aside * widthInFont(text, SCREEN_FONT)) / 2, y: spot.y };
      return { text, at, box: labelBox(text, at) };
    }),
  );
}

function labelBox(label: string, { x, y }: Point): Box {
  const half = widthInFont(label, SCREEN_FONT) / 2 + LABEL_MM / 4;
  return { left: x - half, right: x + half, bottom: y, top: y + LABEL_MM };
}

const pointBeyondTip = ({ x, y }: Point, off: number): Point => ({
  x,
  y: off > 0 ? y + LABEL_MM : y - LABEL_MM * 1.7,
});

function deviationText({ proud }: Deviation, rule: Rule): string {
  return `${typesetFractions(readOnRule(Math.abs(proud), rule).text)} ${proud > 0 ? 'proud' : 'shy'}`;
}
