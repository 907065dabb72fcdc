import { type Box, boxesOverlap, inflate, pathBounds, squareAround } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { isGivenPoint, isOnUpperEdge, landmarks } from '../../part/landmarks.ts';
import type { Landmark, Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { lengthWithoutUnit, offsetText, printedLength } from '../drawing/dimensions.ts';
import { type Words, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth } from '../drawing/text-width.ts';
import { boxesAlongLines, nearestFree, type OccupiedSpace } from '../labels/free-space.ts';
import { type FullLine, fullLine } from './full-size.ts';

/** Marks and letters at their usual size, mm, and the part (from corner to corner) on which they have it. */
const MARK_SIZE_MM = 3;
const LETTER_SIZE_MM = 3.5;
export const NAME_SIZE_MM = 5;
const USUAL_DIAGONAL_MM = 150;
/** On a small part all of it is smaller, but letters below this no machine makes. */
const MIN_SCALE = 0.1;
const FAR_MM = 1e6;

export const letterScale = ({ bounds: { left, right, bottom, top } }: Part): number =>
  Math.min(1, Math.max(MIN_SCALE, Math.hypot(right - left, top - bottom) / USUAL_DIAGONAL_MM));

const markedLandmarks = (part: Part): Landmark[] => landmarks(part).filter(({ what }) => what !== 'end');

const markTitle = ({ rule }: Part, mark: Landmark): string =>
  `${mark.what} ${lengthWithoutUnit(mark.at.x, rule)}, ${offsetText(mark, (mm) => lengthWithoutUnit(mm, rule))}`;

/** Nails and points as crosses; apexes and joins as ticks square to the reference line. A shoulder is seen without. */
export function markLines(part: Part): FullLine[] {
  const reach = (MARK_SIZE_MM * letterScale(part)) / 2;
  return markedLandmarks(part).flatMap((mark) => {
    const { x, y } = mark.at;
    const tick = (dx: number, dy: number): FullLine =>
      fullLine({
        layer: 'marks',
        style: 'mark',
        title: markTitle(part, mark),
        exact: [{ type: 'line', from: point(x - dx, y - dy), to: point(x + dx, y + dy) }],
        closed: false,
      });
    if (mark.what === 'shoulder') return [];
    return isGivenPoint(mark.what) ? [tick(reach, 0), tick(0, reach)] : [tick(0, reach)];
  });
}

/** Each name, station and offset where it covers no line. */
export function markLabels(part: Part): Words[] {
  const scale = letterScale(part);
  const size = LETTER_SIZE_MM * scale;
  const lines = flatten([...finishedLine(part.shape), ...part.saw], size / 4);
  const taken = [...boxesAlongLines(lines, size / 3), titleArea(part, NAME_SIZE_MM * scale)];
  return markedLandmarks(part).flatMap((mark) => {
    const text = markTitle(part, mark);
    const [width, height] = [textWidth(text, size), size * LINE_SPACING];
    const wished = point(
      mark.at.x - width / 2,
      mark.at.y + (isOnUpperEdge(part, mark) ? -height - 2 * size : 2 * size),
    );
    const room = spaceNear(mark.at, width + 8 * size, taken);
    const box = nearestFree(room, wished, width, height);
    if (!box) return [];
    taken.push(inflate(box, size / 4));
    const at = point((box.left + box.right) / 2, box.bottom + size * 0.35);
    return [{ ...words(text, at, size, 'middle'), layer: 'text' }];
  });
}

const titleArea = ({ bounds: { left, right, bottom } }: Part, name: number): Box => ({
  ...inflate({ left, right, bottom, top: bottom }, FAR_MM),
  top: bottom - 1.3 * name,
});

/** Only what lies about a place: a long part has thousands of boxes. */
function spaceNear(place: Point, reach: number, taken: readonly Box[]): OccupiedSpace {
  const area = squareAround(place, reach);
  return { area, occupied: taken.filter((box) => boxesOverlap(box, area)) };
}

export function partTitleWords(part: Part): Words[] {
  const count = part.quantity > 1 ? ` Quantity: ${part.quantity}.` : '';
  return titleWords(part, point(part.bounds.left, part.bounds.bottom), [`${overallSizeWords(part)}${count}`]);
}

export function titleWords(part: Part, { x, y }: Point, lines: readonly string[]): Words[] {
  const scale = letterScale(part);
  const [name, letters] = [NAME_SIZE_MM * scale, LETTER_SIZE_MM * scale];
  const under = y - 2.5 * name;
  return [
    words(typesetMeasures(part.name), point(x, under), name),
    ...lines.map((line, i) => words(line, point(x, under - letters * (1.8 + i * LINE_SPACING)), letters)),
  ].map((each) => ({ ...each, layer: 'text' as const }));
}

export function overallSizeWords({ shape, rule }: Part): string {
  const { left, right, bottom, top } = pathBounds(finishedLine(shape));
  return `Full size. Finished line: ${printedLength(right - left, rule)} long, ${printedLength(top - bottom, rule)} high.`;
}
