import { flatten } from '../../curves/geometry/flatten.ts';
import { point } from '../../curves/geometry/point.ts';
import { isHanded } from '../../part/handedness.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import type { Copy } from '../../shop/nesting/copy-placement.ts';
import { shownJoints } from '../../tiling/grid/required-content.ts';
import { stationAt } from '../drawing/dimensions.ts';
import { jointLines } from '../drawing/part-view.ts';
import { textWidth } from '../drawing/text-width.ts';
import { boxesAlongLines, isFree, type OccupiedSpace } from '../labels/free-space.ts';

/** "2 mirrored" where a copy is turned over and that makes a difference. */
export const copyNumber = (part: Part, { over }: Copy, number: number): string =>
  over && isHanded(part) ? `${number} mirrored` : String(number);

const STATION_SHARES = Array.from(
  { length: 37 },
  (_, i) => 0.5 + (i % 2 === 0 ? -1 : 1) * Math.ceil(i / 2) * 0.025,
);

const SIZE_SHARES = [1, 0.7, 0.5, 0.35];

/** Where words stand in the wood of a closed part, clear of its edges and joints; absent where nowhere. */
export function placeTextInWood(part: Part, text: string, wished: number) {
  const { left, right } = part.bounds;
  const room = spaceInWood(part, wished / 4);
  for (const size of SIZE_SHARES.map((share) => share * wished))
    for (const station of STATION_SHARES.map((share) => left + share * (right - left))) {
      const [low, high] = stationAt(part, station).offsets.toSorted((a, b) => (a ?? 0) - (b ?? 0));
      if (low === undefined || high === undefined) continue;
      const [width, middle] = [textWidth(text, size), (low + high) / 2];
      const [bottom, top] = [middle - size / 2, middle + size / 2];
      if (top > high || bottom < low) continue;
      const box = { left: station - width / 2, right: station + width / 2, bottom, top };
      if (isFree(room, box)) return { middle: point(station, middle), size };
    }
  return undefined;
}

function spaceInWood(part: Part, white: number): OccupiedSpace {
  const joints = shownJoints(part).flatMap((joint) => jointLines(part, joint).flatMap(({ path }) => path));
  const lines = [...finishedLine(part.shape), ...joints];
  return { area: part.bounds, occupied: boxesAlongLines(flatten(lines, white), white) };
}
