import type { Deviation, EdgeCheck } from '../../check/check-edge.ts';
import { type DeviationSide, deviationSide } from '../../check/deviation-side.ts';
import { type Box, boxesOverlap } from '../../curves/geometry/bounds.ts';
import { segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { itemAt, neighbors } from '../../units/checked.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { type Item, words } from '../drawing/drawing.ts';
import { SCREEN_FONT, widthInFont } from './place-labels.ts';

const LABEL_MM = SCREEN_FONT.size;
/** Over the tip, or to its right or left, by halves of the label's width. */
const SIDEWAYS_STEPS = [0, 1, -1];

/** Beyond the tips outside the tolerance, the worst first: "1/16 proud", or the bare length. */
export function deviationLabels(
  readings: readonly Deviation[],
  tips: readonly Point[],
  { tolerance, line: edge }: Pick<EdgeCheck, 'tolerance' | 'line'>,
  part: Part,
): Item[] {
  const taken: Box[] = [];
  const line = neighbors(tips).map(([from, to]) => ({ from, to }));
  const isFree = (box: Box): boolean =>
    !taken.some((other) => boxesOverlap(box, other)) &&
    !line.some((chord) => segmentIntersectsBox(chord, box));
  return readings
    .map((reading, i) => ({ reading, tip: itemAt(tips, i) }))
    .filter(({ reading }) => Math.abs(reading.square) > tolerance)
    .toSorted((a, b) => Math.abs(b.reading.square) - Math.abs(a.reading.square))
    .flatMap(({ reading, tip }, rank): Item[] => {
      const side = deviationSide(part, edge, reading.proud);
      const wished = labelCandidates(reading, side, tip, rank === 0, part.rule);
      const found = wished.find(({ box }) => isFree(box)) ?? (rank === 0 ? wished[0] : undefined);
      if (!found) return [];
      taken.push(found.box);
      return [words(found.text, found.at, LABEL_MM, 'middle')];
    });
}

function labelCandidates(
  { proud, square }: Deviation,
  side: DeviationSide,
  tip: Point,
  inFull: boolean,
  rule: Rule,
) {
  const length = typesetMeasures(readOnRule(Math.abs(proud), rule).text);
  const full = `${length} ${side}`;
  const y = square > 0 ? tip.y + LABEL_MM : tip.y - LABEL_MM * 1.7;
  return SIDEWAYS_STEPS.flatMap((aside) =>
    (inFull ? [full] : [full, length]).map((text) => {
      const half = widthInFont(text, SCREEN_FONT) / 2;
      const x = tip.x + aside * half;
      const reach = half + LABEL_MM / 4;
      const box = { left: x - reach, right: x + reach, bottom: y, top: y + LABEL_MM };
      return { text, at: point(x, y), box };
    }),
  );
}
