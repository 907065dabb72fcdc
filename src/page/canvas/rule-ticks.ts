import { firstOf, lastOf } from '../../units/checked.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';

export interface Tick {
  readonly mm: number;
  readonly share: number;
  readonly label: string | undefined;
}

/** Spacings of the marks from fine to coarse, in the rule's unit: each divides the next. */
const TICK_SPACINGS: Readonly<Record<Unit, readonly number[]>> = {
  in: [1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 12, 120, 1200, 12_000],
  mm: [0.5, 1, 5, 10, 50, 100, 500, 1000, 5000, 10_000, 50_000, 100_000],
};

const LABEL_SPACINGS: Readonly<Record<Unit, readonly number[]>> = {
  in: [1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24, 48, 120, 240, 480, 1200, 2400, 4800, 12_000],
  mm: [1, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000, 200_000, 500_000],
};

/** Closer marks merge into gray, px. */
const MIN_TICK_PX = 4;
const MIN_LABEL_PX = 46;
/** Bounds the work for a view that is nearly empty. */
const MAX_TICKS = 2000;

/** A smaller share of a mark is rounding. */
const ROUNDING = 1e-9;

const TICK_SHARES = [0.3, 0.45, 0.6, 0.75, 1];

/** The marks of a rule between two places, as fine as this scale (px per mm) can show. */
export function ticksBetween(from: number, to: number, pxPerMm: number, rule: Rule): Tick[] {
  const { unit } = rule;
  const size = unit === 'in' ? MM_PER_INCH : 1;
  const px = (mark: number): number => mark * size * pxPerMm;
  const first = TICK_SPACINGS[unit].findIndex((mark) => px(mark) >= MIN_TICK_PX);
  const shown = TICK_SPACINGS[unit].slice(first < 0 ? -1 : first).slice(0, TICK_SHARES.length);
  const labelled =
    LABEL_SPACINGS[unit].find((mark) => px(mark) >= MIN_LABEL_PX) ?? lastOf(LABEL_SPACINGS[unit]);
  const step = Math.min(firstOf(shown), labelled);
  const [low, high] = [Math.ceil(from / size / step - ROUNDING), Math.floor(to / size / step + ROUNDING)];
  const ticks: Tick[] = [];
  for (let i = low; i <= Math.min(high, low + MAX_TICKS); i++) {
    const at = i * step;
    const level = shown.findLastIndex((mark) => isMultiple(at, mark));
    const share = TICK_SHARES[TICK_SHARES.length - shown.length + level] ?? firstOf(TICK_SHARES);
    const label = isMultiple(at, labelled) ? tickLabel(at * size, rule) : undefined;
    ticks.push({ mm: at * size, share, label });
  }
  return ticks;
}

const isMultiple = (value: number, of: number): boolean =>
  Math.abs(value / of - Math.round(value / of)) < ROUNDING;

const tickLabel = (mm: number, rule: Rule): string =>
  typesetMeasures(readOnRule(mm, rule).text).replace('-', '−');
