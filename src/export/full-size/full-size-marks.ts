import { around, type Box, grown, overlap, pathBox } from '../../curves/geometry/bounds.ts';
import { chordsOf } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { finishedLine } from '../../part/finished-line.ts';
import { isOnUpper, isPinned, landmarks } from '../../part/landmarks.ts';
import type { Landmark, Part } from '../../part/part.ts';
import { bare, offsetWords, printed } from '../drawing/dimensions.ts';
import { type Words, words } from '../drawing/drawing.ts';
import { LEADING, textWidth } from '../drawing/text-width.ts';
import { nearestFree, type Room, strips } from '../labels/free-space.ts';
import type { FullLine } from './full-size.ts';

/** Marks and letters at their usual size, mm, and the part (from corner to corner) on which they have it. */
const TICK_MM = 3;
const LETTERS_MM = 3.5;
export const NAME_MM = 5;
const USUAL_MM = 150;

/** On a small part all of it is smaller, but letters below this no machine makes. */
const LEAST_SCALE = 0.1;

export const scaleFor = ({ bounds: { left, right, bottom, top } }: Part): number =>
  Math.min(1, Math.max(LEAST_SCALE, Math.hypot(right - left, top - bottom) / USUAL_MM));

const marked = (part: Part): Landmark[] => landmarks(part).filter(({ what }) => what !== 'end');

const nameOf = ({ rule }: Part, mark: Landmark): string =>
  `${mark.what} ${bare(mark.at.x, rule)}, ${offsetWords(mark, (mm) => bare(mm, rule))}`;

/** Nails and pins as crosses; apexes and joins as ticks square to the reference line. A shoulder is seen without. */
export function markLines(part: Part): FullLine[] {
  const reach = (TICK_MM * scaleFor(part)) / 2;
  return marked(part).flatMap((mark) => {
    const { x, y } = mark.at;
    const tick = (dx: number, dy: number): FullLine => ({
      layer: 'marks',
      style: 'mark',
      title: nameOf(part, mark),
      exact: [{ type: 'line', from: point(x - dx, y - dy), to: point(x + dx, y + dy) }],
      closed: false,
    });
    if (mark.what === 'shoulder') return [];
    return isPinned(mark.what) ? [tick(reach, 0), tick(0, reach)] : [tick(0, reach)];
  });
}

/** Each mark's name, station and offset, where it covers no line. */
export function markLabels(part: Part): Words[] {
  const scale = scaleFor(part);
  const size = LETTERS_MM * scale;
  const lines = chordsOf([...finishedLine(part.shape), ...part.saw], size / 4);
  const taken = [...strips(lines, size / 3), belowFor(part, NAME_MM * scale)];
  return marked(part).flatMap((mark) => {
    const text = nameOf(part, mark);
    const [width, height] = [textWidth(text, size), size * LEADING];
    const wished = point(
      mark.at.x - width / 2,
      mark.at.y + (isOnUpper(part, mark) ? -height - 2 * size : 2 * size),
    );
    const room = near(mark.at, width + 8 * size, taken);
    const box = nearestFree(room, wished, width, height);
    if (!box) return [];
    taken.push(grown(box, size / 4));
    const at = point((box.left + box.right) / 2, box.bottom + size * 0.35);
    return [{ ...words(text, at, size, 'middle'), layer: 'text' }];
  });
}

/** Where the name stands, however wide. */
const belowFor = ({ bounds: { left, right, bottom } }: Part, name: number): Box => ({
  ...grown({ left, right, bottom, top: bottom }, FAR_MM),
  top: bottom - 1.3 * name,
});

const FAR_MM = 1e6;

/** Only what lies about a place: a long part has thousands of strips. */
function near(place: Point, reach: number, taken: readonly Box[]): Room {
  const area = around(place, reach);
  return { area, taken: taken.filter((box) => overlap(box, area)) };
}

/** Below the part: what it is, and what its drawing must measure. */
export function nameWords(part: Part): Words[] {
  const count = part.quantity > 1 ? ` Make ${part.quantity}.` : '';
  return titleWords(part, point(part.bounds.left, part.bounds.bottom), [`${sizeWords(part)}${count}`]);
}

/** Below a corner: the part's name, and smaller lines under it. */
export function titleWords(part: Part, { x, y }: Point, lines: readonly string[]): Words[] {
  const scale = scaleFor(part);
  const [name, letters] = [NAME_MM * scale, LETTERS_MM * scale];
  const under = y - 2.5 * name;
  return [
    words(part.name, point(x, under), name),
    ...lines.map((line, i) => words(line, point(x, under - letters * (1.8 + i * LEADING)), letters)),
  ].map((each) => ({ ...each, layer: 'text' as const }));
}

export function sizeWords({ shape, rule }: Part): string {
  const { left, right, bottom, top } = pathBox(finishedLine(shape));
  return `Full size: the finished line is ${printed(right - left, rule)} long and ${printed(top - bottom, rule)} high.`;
}
