import { columnSpacing, type Grid, LINE_PAD_MM, minWindows, rowSpacing, type SheetFrame } from './grid.ts';
import type { TurnedChords } from './row-spans.ts';

/** How many windows in a row, where the first begins, mm, and how far that is from the centered place, mm. */
export interface GridOffset {
  readonly count: number;
  readonly start: number;
  readonly shift: number;
}

/** The fewest windows from `low` to `high`, centered, then shifted; then one more, as further ones would be empty. */
export function candidateOffsets(
  low: number,
  high: number,
  pitch: number,
  overlap: number,
  step: number,
): GridOffset[] {
  const centred = centredOffset(low, high, pitch, overlap);
  const fewest = centred.count;
  const found = [centred];
  for (const count of [fewest, fewest + 1]) {
    if (count === 1) continue;
    const from = Math.max(high + LINE_PAD_MM - count * pitch - overlap, low - pitch - overlap / 2);
    const to = Math.min(low - LINE_PAD_MM, high - overlap / 2 - (count - 1) * pitch);
    const plain = count === fewest ? centred.start : (from + to) / 2;
    const steps = Math.floor((to - from) / 2 / step);
    for (let k = -steps; k <= steps; k++) {
      const shift = Math.abs(k) * step + (count - fewest) * pitch;
      if (shift > 0) found.push({ count, start: plain + k * step, shift });
    }
  }
  return found;
}

function centredOffset(low: number, high: number, pitch: number, overlap: number): GridOffset {
  const count = minWindows(high - low + 2 * LINE_PAD_MM, pitch, overlap);
  return { count, start: (low + high - count * pitch - overlap) / 2, shift: 0 };
}

/** The grid of two offsets; the one down is measured with y down. */
export const gridAt = (frame: SheetFrame, across: GridOffset, down: GridOffset): Grid => ({
  ...frame,
  rows: down.count,
  columns: across.count,
  left: across.start,
  top: -down.start,
});

export function centredGrid({ bounds }: TurnedChords, frame: SheetFrame): Grid {
  const { left, right, bottom, top } = bounds;
  const across = centredOffset(left, right, columnSpacing(frame), frame.overlap);
  return gridAt(frame, across, centredOffset(-top, -bottom, rowSpacing(frame), frame.overlap));
}
