import { boxCorners, type Item, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, wrapText } from '../drawing/text-width.ts';
import type { CheckRow } from './check-rows.ts';
import { BASELINE_SHARE, BODY_MM, keepTogether, type TextRow } from './text-columns.ts';

const GAP_MM = 3;
const BOX_MM = { width: 36, height: 4.4 } as const;
const ROW_MM = 5.2;
const HEADS = { reads: 'should read', error: 'largest error', box: 'you measure' } as const;
/** A narrower table has its words above its figures, mm. */
const BESIDE_MM = 120;

/** Each distance with its figures and a box to write in; width in mm. */
export function checkTable(checks: readonly CheckRow[], width: number): TextRow[] {
  const widest = (texts: readonly string[]): number =>
    Math.max(...texts.map((text) => textWidth(text, BODY_MM)));
  const reads = widest([HEADS.reads, ...checks.map((check) => check.reads)]);
  const error = widest([HEADS.error, ...checks.map((check) => check.error)]);
  const box = width - BOX_MM.width;
  const errorAt = box - GAP_MM - error;
  const readsAt = errorAt - GAP_MM - reads;
  const isBeside = width >= BESIDE_MM;
  const room = isBeside ? readsAt - GAP_MM : width;
  const line = BODY_MM * LINE_SPACING;
  const figures = (x: number, y: number, texts: readonly [string, string, string?]): Item[] => [
    words(texts[0], { x: x + readsAt, y }, BODY_MM),
    words(texts[1], { x: x + errorAt, y }, BODY_MM),
    ...(texts[2] === undefined ? [] : [words(texts[2], { x: x + box, y }, BODY_MM)]),
  ];
  const head: TextRow = {
    height: line,
    draw: (x, top) => figures(x, top - BODY_MM * BASELINE_SHARE, [HEADS.reads, HEADS.error, HEADS.box]),
  };
  const rows = checks.map((check): TextRow => {
    const lines = wrapText(check.label, BODY_MM, room);
    const above = isBeside ? 0 : lines.length * line;
    const height = above + Math.max(ROW_MM, isBeside ? (lines.length - 1) * line + ROW_MM : 0);
    return {
      height,
      draw: (x, top) => {
        const y = top - above - ROW_MM + 1.4;
        const first = isBeside ? y : top - BODY_MM * BASELINE_SHARE;
        const bottom = top - above - ROW_MM + 0.4;
        const each = BOX_MM.width / check.count;
        const frames = Array.from({ length: check.count }, (_, i) => {
          const left = x + box + i * each;
          return { left, right: left + each, bottom, top: bottom + BOX_MM.height };
        });
        return [
          ...figures(x, y, [check.reads, check.error]),
          ...lines.map((text, i) => words(text, { x, y: first - i * line }, BODY_MM)),
          ...frames.map((frame) => polyline('rule', boxCorners(frame), true)),
        ];
      },
    };
  });
  return keepTogether([head, ...rows]);
}
