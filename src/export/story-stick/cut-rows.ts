import type { StickRow } from '../../part/derived/story-stick.ts';
import { itemAt } from '../../units/checked.ts';
import { spreadLabels } from '../labels/spread-labels.ts';
import { LABEL_MM, type StickLabel, type StickLabelStyle, stickLabelWidth } from './stick-labels.ts';

/** A stretch of a row that fits across the paper, by its stations, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Within this share of its length a row may end early to be clear of ticks. */
const SEARCHED_SHARE = 0.3;

/**
 * A row in stretches no longer than the paper is wide, mm. Each ends so far from the ticks, mm, or where they are
 * farthest: a mark on a seam could be read on neither paper.
 */
export function cutRow({ from, to, ticks }: StickRow, longest: number, clear: number): Stretch[] {
  const stations = ticks.map(({ station }) => station);
  const stretches: Stretch[] = [];
  let start = from;
  while (to - start > longest) {
    const end = placeBetweenTicks(stations, start + longest * (1 - SEARCHED_SHARE), start + longest, clear);
    stretches.push({ from: start, to: end });
    start = end;
  }
  return [...stretches, { from: start, to }];
}

/** The last place that is clear; else the middle of the widest gap between ticks. */
function placeBetweenTicks(stations: readonly number[], low: number, high: number, clear: number): number {
  const before = Math.max(low, ...stations.filter((station) => station <= low));
  const after = Math.min(...stations.filter((station) => station >= high), high + clear);
  const edges = [before, ...stations.filter((station) => station > low && station < high), after];
  let [best, widest] = [high, 0];
  for (let i = edges.length - 1; i > 0; i--) {
    const [a, b] = [itemAt(edges, i - 1), itemAt(edges, i)];
    const last = Math.min(high, b - clear);
    if (last >= a + clear && last >= low) return last;
    const middle = Math.min(high, Math.max(low, (a + b) / 2));
    const off = Math.min(middle - a, b - middle);
    if (off > widest) [best, widest] = [middle, off];
  }
  return best;
}

export interface LaidLabel extends StickLabel {
  /** Where the label begins, a station, mm. */
  readonly left: number;
  readonly width: number;
}

/** The labels of a stretch where they find room; undefined where one does not. */
export function layLabels(
  labels: readonly StickLabel[],
  { from, to }: Stretch,
  style: StickLabelStyle,
): LaidLabel[] | undefined {
  const sized = labels.map((label) => ({ ...label, width: stickLabelWidth(label, style) }));
  if (style.shape !== 'turned') return besideTicks(sized, from, to);
  const wished = sized.map(({ tick, width }) => ({ at: tick.station, width }));
  const middles = spreadLabels(wished, from + LABEL_MM.gap, to - LABEL_MM.gap);
  return middles && sized.map((label, i) => ({ ...label, left: itemAt(middles, i) - label.width / 2 }));
}

/** Right of its tick or, where that has no room, left of it, never across another tick. */
function besideTicks(
  labels: readonly (StickLabel & { readonly width: number })[],
  from: number,
  to: number,
): LaidLabel[] | undefined {
  // One way to lay the labels so far for each side that the last of them may be on.
  let ways: Way[] = [{ end: from, lefts: 0, laid: [] }];
  for (const [i, label] of labels.entries()) {
    const { station } = label.tick;
    const before = labels[i - 1]?.tick.station ?? from - LABEL_MM.white;
    const next = labels[i + 1]?.tick.station ?? to + LABEL_MM.gap;
    const right = station + LABEL_MM.gap;
    const left = station - LABEL_MM.gap - label.width;
    const onRight = right + label.width <= Math.min(next, to) - LABEL_MM.gap / 2;
    const found: Way[] = [];
    const fitting = ways.filter(({ end }) => end <= station);
    const free = ways.filter(({ end }) => end + LABEL_MM.white <= left && left >= before + LABEL_MM.gap / 2);
    const most = (all: readonly Way[]): Way | undefined =>
      all.length === 0 ? undefined : all.reduce((a, b) => (b.lefts < a.lefts ? b : a));
    const [one, other] = [most(fitting), most(free)];
    if (one && onRight)
      found.push({ ...one, end: right + label.width, laid: [...one.laid, { ...label, left: right }] });
    if (other && left >= from)
      found.push({ end: station, lefts: other.lefts + 1, laid: [...other.laid, { ...label, left }] });
    if (found.length === 0) return undefined;
    ways = found;
  }
  return [...ways.reduce((a, b) => (b.lefts < a.lefts ? b : a)).laid];
}

interface Way {
  /** Where its last label or tick ends, a station, mm. */
  readonly end: number;
  readonly lefts: number;
  readonly laid: readonly LaidLabel[];
}
